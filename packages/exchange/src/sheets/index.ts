export { cellPlaceInWords, columnLetter, type Unread } from './cells.ts';
export { commandsOf, decideImport, type ImportCommand } from './commands.ts';
export { limits } from './limits.ts';
export {
  type ImportMapping,
  type Source,
  type TableMapping,
  withReading,
  withTable,
} from './mapping.ts';
export { type ImportInput, type Preview, type PreviewRow, previewImport, type RowStatus } from './preview.ts';
export { isImportable, type Proposal, proposeMapping } from './propose.ts';
export type { Question } from './questions.ts';
export { readSheets } from './read-sheets.ts';
export { type RememberedMapping, rememberedMappings } from './remember.ts';
export { type ReadSheets, type SheetTable, tableName } from './tables.ts';
export { readColumns, said, type TypedColumn, type TypedTable } from './typed-columns.ts';
export { readOffset } from './when.ts';
