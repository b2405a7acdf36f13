import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from './entry.ts';
import { createFold, type FoldRules } from './fold.ts';
import { compareEntries } from './order.ts';
import { inventedEntry, shuffled } from './simulation/invented.ts';
import { seededRandom } from './simulation/random.ts';

/** A state in which order shows: the list of what was applied. */
const LISTS: FoldRules<string[]> = {
  threadsOf: (entry) => (entry.body!.holes as string[]).map((hole) => `hole:${hole}`),
  initial: (thread) => [thread],
  apply: (state, entry) => {
    state.push(`${entry.header.id} after ${state.at(-1)}`);
  },
};

function history(random: ReturnType<typeof seededRandom>, count: number): Entry[] {
  return Array.from({ length: count }, (_, index) => {
    const stamp = `${String(random.below(count)).padStart(15, '0')}-000000`;
    const holes = ['CER-A', 'CER-B', 'CER-C'].filter(() => random.chance(0.5));
    return inventedEntry({ stamp, device: random.pick(['d', 'e']) }, { id: `e${index}`, body: { holes } });
  });
}

/** Everything from scratch, the plain way. */
function rebuilt(entries: readonly Entry[]): Record<string, string[]> {
  const states: Record<string, string[]> = {};
  for (const entry of [...entries].sort(compareEntries)) {
    for (const thread of LISTS.threadsOf(entry)) {
      states[thread] ??= LISTS.initial(thread);
      LISTS.apply(states[thread]!, entry, thread);
    }
  }
  return states;
}

describe('createFold', () => {
  it('J1, J2, I7: any order, any batches, repeats and looks in between give what a rebuild gives', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0 }), fc.integer({ min: 0, max: 40 }), (seed, count) => {
        const random = seededRandom(seed);
        const entries = history(random, count);
        const fold = createFold(LISTS);
        const arriving = shuffled([...entries, ...entries.slice(0, 5)], random);
        while (arriving.length > 0) {
          const touched = fold.add(arriving.splice(0, 1 + random.below(4)));
          for (const thread of touched) if (random.chance(0.5)) fold.state(thread);
        }
        const states = Object.fromEntries(fold.threads().map((thread) => [thread, fold.state(thread)]));
        expect(states).toEqual(rebuilt(entries));
      }),
      { numRuns: 500 },
    );
  });

  it('J1: a late entry refolds only the threads it touches', () => {
    const applied: string[] = [];
    const fold = createFold({
      ...LISTS,
      apply: (state: string[], entry: Entry, thread: string) => {
        applied.push(`${thread} ${entry.header.id}`);
        LISTS.apply(state, entry, thread);
      },
    });
    const entry = (id: string, time: number, holes: string[]) =>
      inventedEntry({ stamp: `00000000000000${time}-000000` }, { id, body: { holes } });
    fold.add([entry('a', 1, ['CER-A']), entry('c', 3, ['CER-A']), entry('x', 2, ['CER-B'])]);
    for (const thread of fold.threads()) fold.state(thread);
    applied.length = 0;
    expect(fold.add([entry('b', 2, ['CER-A'])])).toEqual(['hole:CER-A']);
    for (const thread of fold.threads()) fold.state(thread);
    expect(applied).toEqual(['hole:CER-A a', 'hole:CER-A b', 'hole:CER-A c']);
    applied.length = 0;
    fold.add([entry('d', 4, ['CER-A'])]);
    fold.state('hole:CER-A');
    expect(applied).toEqual(['hole:CER-A d']);
  });

  it('revision grows with every entry of a thread and with nothing else', () => {
    const fold = createFold(LISTS);
    const one = inventedEntry({}, { id: 'a', body: { holes: ['CER-A'] } });
    expect(fold.revision('hole:CER-A')).toBe(0);
    fold.add([one]);
    fold.add([one]);
    fold.state('hole:CER-A');
    expect(fold.revision('hole:CER-A')).toBe(1);
    expect(fold.state('hole:CER-Z')).toBeUndefined();
    expect(fold.entries('hole:CER-A')).toEqual([one]);
  });

  it('J5: an apply that throws is counted, the entry stays, and the fold goes on', () => {
    const fold = createFold({
      ...LISTS,
      apply: (state: string[], entry: Entry, thread: string) => {
        if (entry.header.id === 'bad') throw new Error('not mine');
        LISTS.apply(state, entry, thread);
      },
    });
    const entries = ['a', 'bad', 'c'].map((id, index) =>
      inventedEntry({ stamp: `00000000000000${index}-000000` }, { id, body: { holes: ['CER-A'] } }),
    );
    fold.add(entries);
    expect(fold.state('hole:CER-A')).toHaveLength(3);
    expect(fold.failures()).toEqual([{ thread: 'hole:CER-A', entry: entries[1], message: 'not mine' }]);
    expect(fold.entries('hole:CER-A')).toHaveLength(3);
  });
});
