import type { Question } from './question.ts';
import { age } from './questions/age.ts';
import { box } from './questions/box.ts';
import { closure } from './questions/closure.ts';
import { density } from './questions/density.ts';
import { stretch } from './questions/stretch.ts';

/** In the order of the work: bench, hole, cable, box, age. */
export const questions: readonly Question[] = [density, closure, stretch, box, age];
