// A worker thread does not know TypeScript until it is told: tsx's own way in (https://tsx.is/dev-api/register-esm).
import { register } from 'tsx/esm/api';

register();
await import('./worker.ts');
