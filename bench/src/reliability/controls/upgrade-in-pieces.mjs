// A wrong upgrade: its steps run without a transaction around them, so that a kill leaves a file between two versions.
import Database from 'better-sqlite3';

const { transaction } = Database.prototype;
Database.prototype.transaction = function (work) {
  // The steps of an upgrade take no argument; the journal's append does.
  if (work.length > 0) return transaction.call(this, work);
  return Object.assign(work, { immediate: work });
};
