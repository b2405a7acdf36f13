import {
  IDBCursor,
  IDBCursorWithValue,
  IDBDatabase,
  IDBFactory,
  IDBIndex,
  IDBKeyRange,
  IDBObjectStore,
  IDBOpenDBRequest,
  IDBRequest,
  IDBTransaction,
  IDBVersionChangeEvent,
} from 'fake-indexeddb';

const classes = {
  IDBCursor,
  IDBCursorWithValue,
  IDBDatabase,
  IDBFactory,
  IDBIndex,
  IDBKeyRange,
  IDBObjectStore,
  IDBOpenDBRequest,
  IDBRequest,
  IDBTransaction,
  IDBVersionChangeEvent,
};

/** Lends Node an empty IndexedDB; the answer takes it away again, as test files share one process. */
export function lendIndexedDb(): () => void {
  const scope = globalThis as Record<string, unknown>;
  Object.assign(scope, classes, { indexedDB: new IDBFactory() });
  return () => {
    for (const name of ['indexedDB', ...Object.keys(classes)]) delete scope[name];
  };
}
