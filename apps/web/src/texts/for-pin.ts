import { pinTexts } from './en-pin.ts';
import { addTexts } from './t.ts';

addTexts(pinTexts);
