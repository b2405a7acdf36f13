import type { Twins } from '@firnbook/storage/browser';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keepDraftsTwice } from './draft-twins.ts';
import { forget, keep, onDrafts, recall } from './kept.ts';

type Written = Parameters<Twins['write']>[0];

let kept: Record<string, string>;
let file: Written | null;
const twins: Twins = {
  read: async () => file,
  write: async (written) => {
    file = written;
  },
};

beforeEach(() => {
  vi.useFakeTimers({ now: 1_000 });
  file = null;
  kept = {};
  const methods: Readonly<Record<string, (...args: string[]) => unknown>> = {
    getItem: (name = '') => kept[name] ?? null,
    setItem: (name = '', text = '') => {
      kept[name] = text;
    },
    removeItem: (name = '') => delete kept[name],
  };
  vi.stubGlobal(
    'localStorage',
    new Proxy(
      {},
      {
        get: (_, name) => methods[String(name)],
        ownKeys: () => Object.keys(kept),
        getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
      },
    ),
  );
});
afterEach(() => {
  onDrafts(() => undefined);
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

const start = async () => {
  const starting = keepDraftsTwice(async () => twins);
  await vi.advanceTimersByTimeAsync(900);
  await starting;
};

describe('forms that are begun, kept twice', () => {
  it('B3: what localStorage had not written down comes back from the files, and what was kept as an entry does not', async () => {
    await start();
    keep('draft.run:b', '"13"');
    await vi.advanceTimersByTimeAsync(400);
    const late = { ...kept };
    keep('draft.run:b', '"13.22"');
    keep('draft.piece:7', '"41"');
    await vi.advanceTimersByTimeAsync(400);
    kept = { ...late };
    await start();
    expect([recall('draft.run:b'), recall('draft.piece:7')]).toEqual(['"13.22"', '"41"']);
    const before = { ...kept };
    forget('draft.run:b');
    await vi.advanceTimersByTimeAsync(400);
    kept = { ...before };
    await start();
    expect([recall('draft.run:b'), recall('draft.piece:7')]).toEqual([null, '"41"']);
  });

  it('a tab that crashed before the files were written keeps its last key', async () => {
    await start();
    keep('draft.run:b', '"13"');
    await vi.advanceTimersByTimeAsync(400);
    keep('draft.run:b', '"13.2"');
    await start();
    expect(recall('draft.run:b')).toBe('"13.2"');
  });

  it('a browser without files starts as before, and so does one whose files stay silent', async () => {
    await keepDraftsTwice(async () => null);
    const starting = keepDraftsTwice(() => new Promise(() => undefined));
    await vi.advanceTimersByTimeAsync(900);
    await starting;
    keep('draft.run:b', '"13"');
    expect(recall('draft.run:b')).toBe('"13"');
  });
});
