export { horizonDate } from './date.ts';
export { horizonNamed, horizonsBetween, writtenEvent } from './find.ts';
export {
  type Cited,
  type Deposition,
  type Horizon,
  type HorizonEvent,
  type HorizonKind,
  horizons,
} from './table.ts';
