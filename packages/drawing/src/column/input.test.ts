import type { DepthView, HoleView, PieceView, ReadingView, RunView, ThingView } from '@firnbook/campaign';
import { defaultAssumptions, solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { columnInput } from './input.ts';

/** Invented: hole B of the Ceredin Saddle with two runs, one of them withdrawn, logged by KT. */
function thing(
  id: string,
  kind: string,
  readings: Readonly<Record<string, string | number>> = {},
): ThingView {
  const view = (field: string, value: string | number): ReadingView => ({
    field,
    text: String(value),
    value: typeof value === 'number' ? value : null,
    entry: `${id}-entry`,
    by: 'KT',
    at: '2026-06-14T11:42:00+02:00',
    struck: [],
    against: [],
  });
  return {
    id,
    kind,
    name: `B-${id}`,
    aliases: [],
    by: 'KT',
    at: '2026-06-14T11:42:00+02:00',
    device: 'tablet',
    readings: Object.fromEntries(
      Object.entries(readings).map(([field, value]) => [field, view(field, value)]),
    ),
    withdrawn: null,
    entries: [`${id}-entry`],
  };
}

function piece(id: string, run: string, number: number, topBreak: string): PieceView {
  return { ...thing(id, 'piece', { topBreak }), run, number };
}

const gone = { reason: 'typed twice', by: 'KT', at: '2026-06-14T12:00:00+02:00', entries: ['gone-entry'] };

const first: RunView = {
  ...thing('run-1', 'run', { from: 0.02, to: 0.91 }),
  number: 1,
  nothingRecovered: false,
  pieces: [
    piece('one', 'run-1', 1, 'fits'),
    piece('two', 'run-1', 2, 'loss'),
    piece('three', 'run-1', 3, 'snapped'),
  ],
};
const second: RunView = {
  ...thing('run-2', 'run', { to: 1.9 }),
  number: 2,
  nothingRecovered: true,
  pieces: [],
};

const hole: HoleView = {
  ...thing('hole-b', 'hole'),
  letter: 'B',
  zeros: [
    { ...thing('zero-1', 'zero', { surface: 'old board' }), withdrawn: gone },
    thing('zero-2', 'zero', { surface: 'snow surface' }),
  ],
  runs: [first, second, { ...second, id: 'run-3', withdrawn: gone }],
  soundings: [thing('sounding-1', 'sounding', { depth: 1.86 })],
  others: {
    feature: [
      thing('dust', 'feature', { piece: 'two', what: 'dust', end: 'bottom', at: 0.1, thickness: 0.004 }),
      thing('melt', 'feature', { piece: 'one', what: 'melt layer', end: 'top', at: 0.05, thickness: 0.02 }),
      thing('deep', 'feature', { piece: 'one', what: 'ash', end: 'top', at: 0.6 }),
      { ...thing('gone', 'feature', { piece: 'one', what: 'crust', end: 'top', at: 0.1 }), withdrawn: gone },
      thing('lost', 'feature', { piece: 'nobody', what: 'crust', end: 'top', at: 0.1 }),
    ],
  },
  conflicts: [
    {
      key: 'k',
      kind: 'two readings',
      says: { key: 'as.it.is', values: { text: 'Two readings of the end.' } },
      things: ['run-2'],
      field: 'to',
    },
  ],
  notUnderstood: 0,
  waiting: 0,
};

const about = (value: number) => ({ value, sd: 0.01, min: value - 0.03, max: value + 0.03 });
const nothing = solveDepths({ runs: [], pieces: [], soundings: [] });
const depths: DepthView = {
  hole: 'hole-b',
  solver: 'test',
  assumptions: { ...defaultAssumptions, firnTo: 47 },
  pieces: {
    two: { top: about(0.44), bottom: about(0.81) },
    one: { top: about(0.01), bottom: about(0.4) },
  },
  runs: { 'run-1': { holeBottom: about(0.89), stub: about(0.08) } },
  findings: [
    {
      what: 'piece',
      which: 'two',
      field: 'loss',
      size: 0.03,
      likely: 'lost ice not logged',
      probability: 0.9,
      detectable: 0.02,
    },
    {
      what: 'sounding',
      which: 'sounding-1',
      field: 'depth',
      size: 0.1,
      likely: '10 cm',
      probability: 0.8,
      detectable: 0.05,
    },
  ],
  learned: nothing.learned,
  confirmed: [],
  converged: true,
  coreBottom: null,
  holeBottom: null,
};

describe('columnInput', () => {
  it('a feature of a piece that was joined into another one lies on that one', () => {
    const pieces = first.pieces.map((one) => (one.id === 'one' ? { ...one, absorbed: ['nobody'] } : one));
    const joined = columnInput({ ...hole, runs: [{ ...first, pieces }, second] }, depths);
    expect(joined.features.find((one) => one.id === 'lost')).toMatchObject({ piece: 'one' });
    expect(columnInput(hole, depths).features.some((one) => one.id === 'lost')).toBe(false);
  });

  const input = columnInput(hole, depths);

  it('takes the solved pieces from the top down and leaves out those without a depth', () => {
    expect(input.pieces.map((one) => [one.id, one.number, one.topBreak, one.top.value])).toEqual([
      ['one', 1, 'fits', 0.01],
      ['two', 2, 'loss', 0.44],
    ]);
  });

  it('takes runs with the driller’s depths, without the withdrawn one', () => {
    expect(
      input.runs.map((run) => [run.id, run.from, run.to, run.holeBottom?.value, run.nothingRecovered]),
    ).toEqual([
      ['run-1', 0.02, 0.91, 0.89, false],
      ['run-2', null, 1.9, undefined, true],
    ]);
  });

  it('marks findings and conflicts at the depth of their reading, from the top down', () => {
    expect(input.marks).toEqual([
      { kind: 'finding', thing: 'two', depth: 0.44 },
      { kind: 'finding', thing: 'sounding-1', depth: 1.86 },
      { kind: 'conflict', thing: 'run-2', depth: 1.9 },
    ]);
  });

  it('names the zero that counts and the limit of firn that the solver assumed', () => {
    expect([input.zero, input.firnTo]).toEqual(['snow surface', 47]);
  });

  it('places what was seen by its distance from the named end of its piece, never outside of it', () => {
    const placed = input.features.map((one) => [one.id, one.what, one.top.toFixed(3), one.bottom.toFixed(3)]);
    expect(placed).toEqual([
      ['melt', 'melt layer', '0.060', '0.080'],
      ['deep', 'other', '0.400', '0.400'],
      ['dust', 'dust', '0.706', '0.710'],
    ]);
  });

  it('takes a break in words it does not know as unsure', () => {
    const solved = { ...depths, pieces: { three: { top: about(0.8), bottom: about(0.85) } } };
    expect(columnInput(hole, solved).pieces[0]?.topBreak).toBe('unsure');
  });

  it('without a solution keeps the driller’s depths and draws no ice', () => {
    const bare = columnInput(hole, null);
    expect(bare.pieces).toEqual([]);
    expect(bare.runs.map((run) => run.to)).toEqual([0.91, 1.9]);
    expect(bare.marks.map((mark) => mark.thing)).toEqual(['sounding-1', 'run-2'].slice(1));
  });
});
