// What a worker needs to read a file, and nothing of the campaign: it starts in a moment.
export { TableError } from '../trouble.ts';
export { readSheets } from './read-sheets.ts';
