// npm start: everything from a fresh clone to the book on the screen.
import { ensureBuilt } from './build.mjs';
import { ensurePackages } from './install.mjs';

ensurePackages();
ensureBuilt();
process.argv.splice(2, 0, 'start');
await import('../apps/cli/bin/firnbook.js');
