import { Redirect, Route, Switch } from 'wouter';
import { useBook, useCampaigns, useDevice } from './device/hooks.ts';
import { Later } from './forms/later.tsx';
import { CampaignScreen } from './screens/campaign-screen.tsx';
import { CampaignsScreen } from './screens/campaigns-screen.tsx';

const pairScreen = () => import('./pair/pair-screen.tsx').then(({ PairScreen }) => PairScreen);
const devicesScreen = () => import('./screens/devices-screen.tsx').then(({ DevicesScreen }) => DevicesScreen);

type Parts = { id: string; hole: string | undefined; place: string | undefined };

/** Addresses: '/', '/pair', '/devices', '/c/<campaign>', '/c/<campaign>/<hole's letter>/<place>'. */
export function App() {
  return (
    <Switch>
      <Route path="/">
        <Campaigns />
      </Route>
      <Route path="/pair">
        <Pair />
      </Route>
      <Route path="/devices">
        <Later part={devicesScreen} />
      </Route>
      <Route<Parts> path="/c/:id/:hole?/:place?">
        {({ id, hole, place }) => <Campaign key={id} id={id} hole={hole} place={place} />}
      </Route>
      <Route>
        <Redirect to="/" replace />
      </Route>
    </Switch>
  );
}

function Campaigns() {
  return <CampaignsScreen campaigns={useCampaigns()} device={useDevice()} />;
}

function Pair() {
  return <Later part={pairScreen} device={useDevice()} />;
}

function Campaign(props: {
  readonly id: string;
  readonly hole: string | undefined;
  readonly place: string | undefined;
}) {
  return <CampaignScreen {...props} book={useBook(props.id)} device={useDevice()} />;
}
