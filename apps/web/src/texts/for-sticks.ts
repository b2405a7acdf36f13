import { stickTexts } from './en-sticks.ts';
import { addTexts } from './t.ts';

addTexts(stickTexts);
