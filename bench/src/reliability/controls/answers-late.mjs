// A wrong server for the tests behind a proxy: it answers first, and stores so much later that even a browser has shown
// the tick by then.
import Database from 'better-sqlite3';

const { transaction } = Database.prototype;
Database.prototype.transaction = function (work) {
  const right = transaction.call(this, work);
  // Work with an argument is the journal's append; the steps that lay out a new file have none.
  if (work.length === 0) return right;
  const wrong = (...batch) => void setTimeout(() => right.immediate(...batch), 60_000).unref();
  return Object.assign(wrong, { immediate: wrong });
};
