// A wrong server for the kill test: it answers first and stores a moment later. The test must notice.
import Database from 'better-sqlite3';

const { transaction } = Database.prototype;
Database.prototype.transaction = function (work) {
  const right = transaction.call(this, work);
  // Work with an argument is the journal's append; the steps that lay out a new file have none.
  if (work.length === 0) return right;
  const wrong = (...batch) => void setTimeout(() => right.immediate(...batch), 40);
  return Object.assign(wrong, { immediate: wrong });
};
