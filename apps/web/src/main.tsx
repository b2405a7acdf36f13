import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { fetchAhead } from './ahead.ts';
import { App } from './app.tsx';
import { keepDraftsTwice } from './device/draft-twins.ts';
import { DeviceProvider } from './device/provider.tsx';
import { createShelf } from './device/shelf.ts';
import { browserSurroundings } from './device/surroundings.ts';
import './look/look.css';
import { hangThemes } from './look/theme.ts';
import { createSolver } from './solve/solver.ts';
import { registerOffline } from './sw/register.ts';

hangThemes(document);
const updates = registerOffline();
const shelf = createShelf(browserSurroundings(createSolver()), updates);

void keepDraftsTwice().then(() => {
  createRoot(document.getElementById('book')!).render(
    <StrictMode>
      <DeviceProvider shelf={shelf}>
        <App />
      </DeviceProvider>
    </StrictMode>,
  );
  fetchAhead();
});
