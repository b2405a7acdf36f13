export { decodeText, type Encoding } from './decode.ts';
export {
  type DepthFiles,
  type InputField,
  type NamedBytes,
  type ReadDepthFiles,
  readDepthFiles,
} from './depth-files.ts';
export {
  depthsHeader,
  type FindingNames,
  findingsHeader,
  writeDepths,
  writeFindings,
} from './depth-tables.ts';
export { type CheckedFile, checkIntervalFile, type IntervalColumns } from './interval-file.ts';
export { type ReadNumber, readNumber } from './number.ts';
export { type ReadingsTables, writeReadings } from './readings-tables.ts';
export { readTable, type Table, type TableRow } from './table.ts';
export { type Place, placeInWords, TableError } from './trouble.ts';
export { type Cell, fixed, writeTable } from './write-table.ts';
