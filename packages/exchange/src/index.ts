export { decodeText, type Encoding } from './decode.ts';
export { type ReadDensityFile, readDensityFile } from './density-file.ts';
export { writeBins, writeDensities, writeProfile, writeWater } from './density-tables.ts';
export {
  type DepthFiles,
  type InputField,
  type ReadDepthFiles,
  readDepthFiles,
} from './depth-files/read-depth-files.ts';
export {
  depthsHeader,
  type FindingNames,
  findingsHeader,
  writeDepths,
  writeFindings,
} from './depth-tables.ts';
export { readFirnLayers } from './firn-layers-file.ts';
export { type CheckedFile, checkIntervalFile, type IntervalColumns } from './interval-file.ts';
export type { NamedBytes } from './named-bytes.ts';
export { type ReadNumber, readNumber } from './number.ts';
export { type ReadingsTables, writeReadings } from './readings-tables.ts';
export { type PieceNames, writeMovements, writeScales } from './scale-tables.ts';
export { withDepths } from './solved-depths-file.ts';
export { readTable, type Table, type TableRow } from './table.ts';
export { type Place, placeInWords, TableError } from './trouble.ts';
export { readVersion, type VersionFile, writeVersion } from './version-file.ts';
export { type Cell, fixed, writeTable } from './write-table.ts';
