import { calculatorTexts } from './en-calculator.ts';
import { addTexts } from './t.ts';

// The calculator comes after the first look and brings its words along.
addTexts(calculatorTexts);
