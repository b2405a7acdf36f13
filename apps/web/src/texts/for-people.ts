import { peopleTexts } from './en-people.ts';
import { addTexts } from './t.ts';

addTexts(peopleTexts);
