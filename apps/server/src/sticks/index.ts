export { type KnownStick, knownSticks, knowStick, verifiedBackups } from './known.ts';
export { serveSticks } from './routes.ts';
export { type Sticks, watchSticks } from './watch.ts';
