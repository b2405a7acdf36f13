#!/usr/bin/env node
import { existsSync } from 'node:fs';

// The launcher is plain JavaScript so that npm can link it before anything is built.
const main = new URL('../dist/main.js', import.meta.url);
if (!existsSync(main)) {
  process.stderr.write('firnbook is not built yet: run "npm run build" in the checkout first.\n');
  process.exit(2);
}
await import(main.href);
