import { availableParallelism, loadavg } from 'node:os';
import { campParts } from '../bench/src/reliability/camp-parts.ts';
import { useBuilt } from '../bench/src/reliability/child-command.ts';
import { readAsked, runParts } from '../bench/src/reliability/run-parts.ts';
import { tabletParts } from './tablet-parts.ts';

/**
 * `npm run soak`: the reliability harness in full, one table of figures, each part with its control.
 *
 *     npm run soak
 *     npm run soak -- D1 S5 B2
 *     npm run soak -- --minutes 10       how long the long run D11 takes; 30 unless told
 *
 * B5, B6, B8 and B9 are tried in full by every `npm test`, B10 by `npm run bench`.
 */
const parts = [...campParts, ...tabletParts];
const say = (line: string): void => void process.stdout.write(`${line}\n`);

try {
  const asked = readAsked(
    process.argv.slice(2),
    parts.map(({ id }) => id),
  );
  useBuilt();
  const busy = loadavg()[0]!.toFixed(1);
  say(`Node ${process.version}, ${availableParallelism()} cores, load before the first part ${busy}`);
  const begun = Date.now();
  const { holds, failed, leftOut } = await runParts(parts, asked, say);
  const minutes = Math.round((Date.now() - begun) / 60_000);
  say(`${holds} figures hold, ${failed} fail, ${leftOut} parts left out (${minutes} minutes)`);
  process.exitCode = failed === 0 ? 0 : 1;
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 2;
}
