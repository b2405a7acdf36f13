export { type Book, createBook } from './book.ts';
export type { Command, Context, Decision, Doubt, Readings, Refusal } from './command.ts';
export { featurePlace } from './core/feature-place.ts';
export { decide } from './decide.ts';
export { type DensityInputs, densityInputs } from './density/inputs.ts';
export { densityReadings } from './density/readings.ts';
export type { DensityView, ModelPoint, ProfilePoint } from './density/shape.ts';
export { densityView, waterAt } from './density/view.ts';
export { withoutDensity } from './density/without.ts';
export { depthAssumptions } from './depth/assumptions.ts';
export { changeOrder } from './depth/change-order.ts';
export { type Comparison, comparison } from './depth/comparison.ts';
export { confirmationOf, readingEntry } from './depth/confirmed.ts';
export { allCountedTwice, countedTwice } from './depth/counted-twice.ts';
export { inclinationStations } from './depth/inclination.ts';
export { causeSentence, movedSentence } from './depth/moved.ts';
export { isOutOfPlaceWord } from './depth/out-of-place.ts';
export { depthReadings, depthSources, type SetUps } from './depth/readings.ts';
export { convertedSentence, scalesOfHole } from './depth/scales.ts';
export { runSentences } from './depth/sentences.ts';
export { splicesOf } from './depth/splices.ts';
export { checkSentence, type NameOf, verdictSentences } from './depth/verdict.ts';
export { depthVersion, isWhole } from './depth/version.ts';
export { depthView } from './depth/view.ts';
export { zeroHeight } from './depth/zeros.ts';
export {
  type Found,
  findHole,
  findNamed,
  findRun,
  findThing,
  isCalled,
  standing,
  standingPieces,
  standingRuns,
  thingsOf,
} from './find.ts';
export { nameSentence } from './frozen-names.ts';
export type {
  AttachmentField,
  CountField,
  Field,
  Kind,
  LengthsField,
  MeasureField,
  PositionField,
  Right,
  TextField,
  ThingField,
  TimeField,
  WordField,
} from './kind.ts';
export { fieldOf, kindOf, kinds } from './kinds.ts';
export {
  type NameParts,
  pieceName,
  type ReadName,
  readName,
  runName,
  withCheck,
} from './names.ts';
export { rightFor } from './people/right-for.ts';
export { asksPin, rightsOf, whoMay } from './people/rights.ts';
export { lettingStand, saying } from './people/settle.ts';
export { type Guesses, guessesNow, oneMoreGuess, waitLeft } from './pin/guesses.ts';
export { isPinLike, type PinProblem, pinProblem } from './pin/pin.ts';
export type { Position } from './position.ts';
export { lengthsIn, type ParsedReading, positionIn, type Read, readReading } from './reading.ts';
export { sayDepth, sayLength } from './say.ts';
export { firnSite } from './site/firn-site.ts';
export { asItIs, fieldText, kindText, wordText } from './texts/called.ts';
export { english } from './texts/english.ts';
export { joined, sayEnglish } from './texts/say-english.ts';
export { type Sentence, sentence, type TextKey, type Value } from './texts/sentence.ts';
export type { DayClosing } from './today/closing.ts';
export type { Need } from './today/needs.ts';
export { type DayHole, type DayShift, type DayTotals, type TodayView, todayView } from './today/view.ts';
export { type Dimension, inUnit, type UnitOf, unitCalled, units } from './unit.ts';
export type {
  CampaignView,
  ConflictView,
  DepthView,
  HoleView,
  PieceView,
  ReadingView,
  Rights,
  RunView,
  StruckReading,
  ThingView,
  UsedRight,
} from './view.ts';
