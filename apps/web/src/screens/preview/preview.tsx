import { createRoot } from 'react-dom/client';
import { Route, Router, Switch } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import '../../look/look.css';
import { hangThemes } from '../../look/theme.ts';
import { CampaignScreen } from '../campaign-screen.tsx';
import { CampaignsScreen } from '../campaigns-screen.tsx';
import { campaigns, device, useFake } from './fake.ts';

const query = new URLSearchParams(location.search);
if (query.has('theme')) localStorage.setItem('firnbook.look', query.get('theme')!);
if (!query.has('cautions')) localStorage.setItem('firnbook.cautions.c1', `p-hn ${Date.now()}`);
hangThemes(document);
function Page() {
  const book = useFake(query);
  return (
    <Router hook={useHashLocation}>
      <Switch>
        <Route path="/">
          {() => <CampaignsScreen campaigns={campaigns(query.has('none'))} device={device} />}
        </Route>
        <Route path="/c/:id">{(p) => <CampaignScreen id={p.id} book={book} device={device} />}</Route>
        <Route path="/c/:id/:hole/:place">
          {(p) => <CampaignScreen id={p.id} hole={p.hole} place={p.place} book={book} device={device} />}
        </Route>
      </Switch>
    </Router>
  );
}
createRoot(document.getElementById('book')!).render(<Page />);
