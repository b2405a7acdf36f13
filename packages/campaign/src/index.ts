export { type Book, createBook } from './book.ts';
export type { Command, Context, Decision, Doubt, Readings, Refusal } from './command.ts';
export { decide } from './decide.ts';
export { type Answer, english, say } from './depth/english.ts';
export { depthReadings, depthSources } from './depth/readings.ts';
export { runSentences, type Sentence } from './depth/sentences.ts';
export { depthView } from './depth/view.ts';
export { type Found, findHole, findRun, findThing, standingPieces, standingRuns, thingsOf } from './find.ts';
export type { CountField, Field, Kind, LengthField, TextField, ThingField, WordField } from './kind.ts';
export { fieldOf, kindOf, kinds } from './kinds.ts';
export {
  checkDigit,
  type NameParts,
  pieceName,
  type ReadName,
  readName,
  runName,
  withCheck,
} from './names.ts';
export { type ParsedReading, type Read, readReading } from './reading.ts';
export { sayDepth, sayLength } from './say.ts';
export { type LengthUnit, lengthUnits } from './unit.ts';
export type {
  CampaignView,
  ConflictView,
  DepthView,
  HoleView,
  PieceView,
  ReadingView,
  RunView,
  StruckReading,
  ThingView,
} from './view.ts';
