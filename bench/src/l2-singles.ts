/** L2: ten tablets save one reading after the other while each flush takes 20 ms longer. Limit: 250 ms for 99 of 100. */
import { measureSingles } from './singles-line.ts';

await measureSingles({ id: 'L2', clients: 10, perClient: 60, flush: 20 });
