export { catalogue, relationNamed } from './catalogue.ts';
export { type Evaluation, evaluate, isNeeded, type ResultValue, type TakenValue } from './evaluate.ts';
export { type Input, parseInput } from './input.ts';
export type { Given, Relation, Taken } from './relation.ts';
export { shownNumber, shownSd } from './shown.ts';
export { convert } from './unit.ts';
