import { saveFile } from '../carry/save-file.ts';
import type { BookHandle } from '../device/book.ts';

/** Hands every entry of the campaign to the browser's downloads; the name of the file. */
export async function carryAway(book: BookHandle): Promise<string> {
  return saveFile(await book.exportFile());
}
