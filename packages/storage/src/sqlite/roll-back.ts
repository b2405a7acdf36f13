import { existsSync } from 'node:fs';
import Database from 'better-sqlite3';

/**
 * A kill while a new file is laid out, before it has its write-ahead log, leaves SQLite's older kind of journal beside
 * it. Only who may write can play that back; who opens for reading alone, as the check at a start does, is refused.
 */
export function rollBackHalfMade(file: string): void {
  if (!existsSync(`${file}-journal`)) return;
  const db = new Database(file);
  try {
    db.prepare('SELECT count(*) FROM sqlite_schema').get();
  } catch {
    // What is wrong with it is the check's to say.
  } finally {
    db.close();
  }
}
