// A wrong store for the error sweep: it says that entries are kept when the disk has refused them.
import Database from 'better-sqlite3';

const { transaction } = Database.prototype;
Database.prototype.transaction = function (work) {
  const right = transaction.call(this, work);
  // Work with an argument is the journal's append; the steps that lay out a new file have none.
  if (work.length === 0) return right;
  const wrong = (...batch) => {
    try {
      return right.immediate(...batch);
    } catch {
      return undefined;
    }
  };
  return Object.assign(wrong, { immediate: wrong });
};
