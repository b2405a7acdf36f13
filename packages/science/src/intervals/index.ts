export { checkIntervals } from './check.ts';
export { checkEitherEnd, type DepthRow } from './depth-side.ts';
export { halfUnits, type Printed } from './rounding.ts';
export type {
  BagLength,
  BagRange,
  Closure,
  Figure,
  IntervalOptions,
  IntervalRow,
  Misfit,
  MisfitKind,
} from './rows.ts';
