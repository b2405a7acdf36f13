export { servePresence } from './routes.ts';
