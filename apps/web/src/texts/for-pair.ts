import { pairTexts } from './en-pair.ts';
import { addTexts } from './t.ts';

addTexts(pairTexts);
