/** L3: fifty tablets save one reading after the other, on the disk as it is. Limit: 250 ms for 99 of 100. */
import { measureSingles } from './singles-line.ts';

await measureSingles({ id: 'L3', clients: 50, perClient: 40, flush: 0 });
