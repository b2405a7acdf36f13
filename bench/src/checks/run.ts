/** `npm run checks`: every entry of the sheet of published numbers through our functions. `--json`, `--section NAME`. */
import { parseArgs } from 'node:util';
import { judge } from './judge.ts';
import { ownSheet, referenceSheet } from './sheet.ts';

const { values } = parseArgs({ options: { json: { type: 'boolean' }, section: { type: 'string' } } });
const sheet = (referenceSheet() ?? ownSheet()).filter(
  ({ section }) => values.section === undefined || section === values.section,
);
const judged = sheet.map(judge);
const count = (state: string): number => judged.filter((one) => one.state === state).length;

if (values.json) console.log(JSON.stringify(judged, null, 1));
else {
  for (const { state, section, id, because } of judged)
    if (state !== 'pass') console.log(`${state}: ${section} ${id}: ${because.join('; ')}`);
  console.log(
    `${judged.length} entries: ${count('pass')} hold, ${count('fail')} fail, ${count('not computed')} are not computed.`,
  );
}
process.exitCode = count('fail') === 0 ? 0 : 1;
