// A wrong server for the flush test: synchronous=NORMAL behind the back of the check that reads it back.
import Database from 'better-sqlite3';

const { pragma } = Database.prototype;
Database.prototype.pragma = function (text, options) {
  if (text === 'synchronous = FULL') return pragma.call(this, 'synchronous = NORMAL', options);
  return text === 'synchronous' ? 2 : pragma.call(this, text, options);
};
