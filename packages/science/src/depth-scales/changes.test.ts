import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DepthReadings } from '../depth/readings.ts';
import { changesBetween } from './changes.ts';

const before: DepthReadings = {
  runs: [
    { id: '1', from: 0, to: 0.8 },
    { id: '2', from: 0.8, to: 1.6 },
  ],
  pieces: [
    { id: 'a', run: '1', length: 0.78, topBreak: 'fits' },
    { id: 'b', run: '2', length: 0.5, topBreak: 'fits' },
  ],
  soundings: [],
};
const said = (after: DepthReadings) => changesBetween(before, after).map(({ change }) => change);

describe('changesBetween', () => {
  it('of the same readings is nothing', () => {
    expect(said(structuredClone(before))).toEqual([]);
  });

  it('of the same readings with their fields in another order is nothing', () => {
    const mark = { depth: 0.02, byRun: '1' };
    const marked = (catcherMark: typeof mark): DepthReadings => ({
      ...before,
      pieces: [{ ...before.pieces[0], catcherMark }, before.pieces[1]],
    });
    const turned = { byRun: '1', depth: 0.02 };
    expect(changesBetween(marked(mark), marked(turned))).toEqual([]);
    expect(changesBetween(marked(mark), marked({ ...turned, depth: 0.03 }))).toHaveLength(1);
  });

  it('names the field that was corrected, with both readings', () => {
    const after = { ...before, pieces: [before.pieces[0], { ...before.pieces[1], length: 0.6 }] };
    expect(said(after)).toEqual([
      { kind: 'corrected', what: 'piece', which: 'b', field: 'length', before: 0.5, after: 0.6 },
    ]);
  });

  it('a run that is added brings its pieces; a piece added to an old run stands for itself', () => {
    const after: DepthReadings = {
      ...before,
      runs: [...before.runs, { id: '3', from: 1.6, to: 2.4 }],
      pieces: [
        ...before.pieces,
        { id: 'c', run: '2', length: 0.2, topBreak: 'fits' },
        { id: 'd', run: '3', length: 0.7, topBreak: 'fits' },
        { id: 'e', run: '3', length: 0.1, topBreak: 'fits' },
      ],
    };
    expect(said(after)).toEqual([
      { kind: 'added', what: 'run', which: '3', pieces: ['d', 'e'] },
      { kind: 'added', what: 'piece', which: 'c' },
    ]);
  });

  it('sees order, settings and readings that were taken away', () => {
    const after: DepthReadings = {
      runs: before.runs,
      pieces: [before.pieces[1], { id: 'a', run: '1', topBreak: 'fits' }],
      soundings: [],
      holeTemperature: -21,
    };
    expect(said(after)).toEqual([
      { kind: 'corrected', what: 'piece', which: 'a', field: 'length', before: 0.78, after: undefined },
      { kind: 'order', what: 'piece' },
      { kind: 'setting', name: 'holeTemperature' },
    ]);
  });

  it('made one after the other, as they become possible, they lead to the readings after (fast-check)', () => {
    const readings = fc
      .record({
        runs: fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { minLength: 1, maxLength: 6 }),
        to: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 6, maxLength: 6 }),
        pieces: fc.uniqueArray(
          fc.record({
            id: fc.integer({ min: 1, max: 9 }),
            run: fc.nat(5),
            length: fc.integer({ min: 1, max: 4 }),
          }),
          { selector: (piece) => piece.id, maxLength: 9 },
        ),
      })
      .map(
        ({ runs, to, pieces }): DepthReadings => ({
          runs: runs.map((id) => ({ id: `r${id}`, to: to[id - 1] })),
          pieces: pieces.map(({ id, run, length }) => ({
            id: `p${id}`,
            run: `r${runs[run % runs.length]}`,
            topBreak: 'fits',
            ...(length === 4 ? {} : { length }),
          })),
          soundings: [],
        }),
      );
    fc.assert(
      fc.property(readings, readings, fc.infiniteStream(fc.nat(1000)), (one, other, chance) => {
        const waiting = [...changesBetween(one, other)];
        let now = one;
        while (waiting.length > 0) {
          const possible = waiting.filter((change) => change.isPossible(now));
          expect(possible.length).toBeGreaterThan(0);
          const pick = possible[chance.next().value % possible.length];
          waiting.splice(waiting.indexOf(pick), 1);
          now = pick.apply(now);
          for (const piece of now.pieces) expect(now.runs.some((run) => run.id === piece.run)).toBe(true);
        }
        expect(now).toEqual(other);
      }),
      { numRuns: 400, seed: 6 },
    );
  });
});
