import { screenTexts } from './en-screens.ts';
import { addTexts } from './t.ts';

// Whatever part is fetched after the first look brings its words along.
addTexts(screenTexts);
