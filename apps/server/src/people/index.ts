export { openPins, type Pins } from './pins.ts';
export { servePins } from './routes.ts';
