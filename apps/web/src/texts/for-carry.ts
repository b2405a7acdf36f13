import { carryTexts } from './en-carry.ts';
import { addTexts } from './t.ts';

// Files that are carried come after the first look and bring their words along.
addTexts(carryTexts);
