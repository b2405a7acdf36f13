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
import { vi } from 'vitest';

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

/**
 * Watches what is opened from now on. `letGo` closes the last one as Chromium does where a write finds the disk full,
 * which `fake-indexeddb` never does. Restore vitest's mocks afterwards.
 */
export function watchConnections() {
  const opened: { readonly db: globalThis.IDBDatabase; readonly told: (() => void)[] }[] = [];
  const { open } = indexedDB;
  const watch = (db: globalThis.IDBDatabase) => {
    const told: (() => void)[] = [];
    opened.push({ db, told });
    vi.spyOn(db, 'addEventListener').mockImplementation((type: string, listener: unknown) => {
      if (type === 'close') told.push(listener as () => void);
    });
  };
  vi.spyOn(indexedDB, 'open').mockImplementation(function (this: globalThis.IDBFactory, ...args) {
    const request = open.apply(this, args);
    request.addEventListener('success', () => watch(request.result));
    return request;
  });
  return {
    opened,
    letGo() {
      const { db, told } = opened.at(-1)!;
      db.close();
      for (const listener of told) listener();
    },
  };
}
