import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../depth/assumptions.ts';
import type { DepthReadings } from '../depth/readings.ts';
import { SOLVER, solveDepths } from '../depth/solve.ts';
import { inventedSeason } from './invented-season.suite.ts';
import { solvedNow } from './solved-now.ts';
import { diff, type Solved } from './versions.ts';

const state = (readings: DepthReadings, assumptions = defaultAssumptions): Solved =>
  solvedNow(readings, solveDepths(readings, assumptions));

const withLength = (readings: DepthReadings, id: string, length: number): DepthReadings => ({
  ...readings,
  pieces: readings.pieces.map((piece) => (piece.id === id ? { ...piece, length } : piece)),
});

/** Each piece's causes add up to its movement. */
const addsUp = (difference: ReturnType<typeof diff>) => {
  for (const { top, bottom, causes } of difference.moved) {
    expect(causes.reduce((sum, cause) => sum + cause.top, 0)).toBeCloseTo(top, 6);
    expect(causes.reduce((sum, cause) => sum + cause.bottom, 0)).toBeCloseTo(bottom, 6);
  }
};

describe('diff', () => {
  const season = inventedSeason(21, 30);
  const target = season.pieces.find((piece) => piece.run === '12') as DepthReadings['pieces'][number];
  const before = state(withLength(season, target.id, (target.length as number) - 0.012));

  it('of the same readings is no movement', () => {
    const { changes, moved } = diff(before, before);
    expect(changes).toEqual([]);
    for (const { top, bottom, causes } of moved) expect([top, bottom, causes]).toEqual([0, 0, []]);
  });

  it('one corrected length moves the pieces below it down, and answers for all of it', () => {
    const after = state(season);
    const difference = diff(before, after);
    expect(difference.changes).toEqual([
      {
        kind: 'corrected',
        what: 'piece',
        which: target.id,
        field: 'length',
        before: (target.length as number) - 0.012,
        after: target.length,
      },
    ]);
    const below = difference.moved.find(({ piece }) => piece === target.id);
    expect(below?.bottom).toBeGreaterThan(0.002);
    for (const { piece, bottom } of difference.moved) {
      const was = before.pieces.find(({ id }) => id === piece);
      const is = after.pieces.find(({ id }) => id === piece);
      expect(bottom).toBeCloseTo((is?.bottom.value as number) - (was?.bottom.value as number), 9);
    }
    addsUp(difference);
  });

  it('asks in the order of entries which change moved what', () => {
    const other = season.pieces.find((piece) => piece.run === '20') as DepthReadings['pieces'][number];
    const after = state(withLength(season, other.id, (other.length as number) + 0.009));
    const of = (which: string) => (change: { readonly which?: string }) => (change.which === which ? 0 : 1);
    const first = diff(before, after, (change) => of(target.id)(change as { which?: string }));
    const second = diff(before, after, (change) => of(other.id)(change as { which?: string }));
    expect(first.changes.map((change) => (change as { which: string }).which)).toEqual([target.id, other.id]);
    expect(second.changes.map((change) => (change as { which: string }).which)).toEqual([
      other.id,
      target.id,
    ]);
    addsUp(first);
    addsUp(second);
  });

  it('an assumption, a piece that was found later and a run logged since are causes like others', () => {
    const old: DepthReadings = {
      runs: season.runs.slice(0, 28),
      pieces: season.pieces.filter((piece) => Number(piece.run) <= 28 && piece.id !== target.id),
      soundings: season.soundings.filter((one) => Number(one.afterRun) <= 28),
    };
    const difference = diff(state(old, { ...defaultAssumptions, lengthSdFirn: 0.004 }), state(season));
    expect(difference.changes.map((change) => change.kind)).toEqual([
      'assumption',
      'added',
      'added',
      'added',
      'added',
    ]);
    expect(difference.appeared).toContain(target.id);
    expect(difference.gone).toEqual([]);
    addsUp(difference);
    const back = diff(state(season), state(old, { ...defaultAssumptions, lengthSdFirn: 0.004 }));
    expect(back.gone).toContain(target.id);
    addsUp(back);
  });

  it('what another version of the solver had given is named as such', () => {
    const old: Solved = {
      ...before,
      solver: 'depth 0',
      pieces: before.pieces.map((piece) => ({
        ...piece,
        top: { ...piece.top, value: piece.top.value - 0.01 },
        bottom: { ...piece.bottom, value: piece.bottom.value - 0.01 },
      })),
    };
    const { changes, moved } = diff(old, before);
    expect(changes).toEqual([{ kind: 'solver', before: 'depth 0', after: SOLVER }]);
    for (const { bottom, causes } of moved) {
      expect(bottom).toBeCloseTo(0.01, 9);
      expect(causes).toHaveLength(1);
    }
  });

  it('causes add up to the whole movement, whatever was changed (fast-check)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.array(fc.tuple(fc.nat(), fc.integer({ min: -30, max: 30 })), { minLength: 1, maxLength: 5 }),
        fc.nat(14),
        (seed, moves, dropped) => {
          const one = inventedSeason(seed, 15);
          const pieces = [...one.pieces];
          for (const [at, by] of moves) {
            const i = at % pieces.length;
            pieces[i] = { ...pieces[i], length: Math.max(0.01, (pieces[i].length as number) + by / 1000) };
          }
          const runs = one.runs.map((run, i) => (i === dropped ? { id: run.id } : run));
          addsUp(diff(state(one), state({ ...one, runs, pieces })));
        },
      ),
      { numRuns: 12, seed: 8 },
    );
  });
});
