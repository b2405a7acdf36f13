import type { HoleView, PieceView, RunView } from '@firnbook/campaign';
import { describe, expect, it } from 'vitest';
import {
  benched,
  drilled,
  findIce,
  findMeasured,
  lastRun,
  nextPieceNumber,
  nextRunNumber,
  runOnBench,
  standing,
} from './hole.ts';

// Invented readings.
const reading = (field: string, value: number) => ({
  field,
  text: `${value} m`,
  value,
  entry: `${field}${value}`,
  by: 'HN',
  at: '2026-06-14T11:42:00+05:45',
  struck: [],
  against: [],
});
const thing = (id: string, kind: string) => ({
  id,
  kind,
  name: id,
  aliases: [],
  by: 'HN',
  at: '2026-06-14T11:42:00+05:45',
  device: 'd',
  readings: {},
  withdrawn: null,
  entries: [id],
});
const gone = { reason: 'logged twice', by: 'HN', at: '2026-06-14T12:00:00+05:45', entries: ['w'] };
const piece = (run: string, number: number, length: number, more: Partial<PieceView> = {}): PieceView => ({
  ...thing(`${run}.${number}`, 'piece'),
  run,
  number,
  readings: { length: reading('length', length) },
  ...more,
});
const run = (number: number, from: number, to: number, more: Partial<RunView> = {}): RunView => ({
  ...thing(`R${number}`, 'run'),
  number,
  nothingRecovered: false,
  pieces: [],
  readings: { from: reading('from', from), to: reading('to', to) },
  ...more,
});
const hole = (runs: readonly RunView[]): HoleView => ({
  ...thing('hole', 'hole'),
  letter: 'B',
  zeros: [],
  runs,
  soundings: [],
  others: {},
  conflicts: [],
  notUnderstood: 0,
  waiting: 0,
});

describe('what the field forms read off a hole', () => {
  it('nextRunNumber: one more than any number used, a withdrawn one included', () => {
    expect(nextRunNumber(hole([]))).toBe(1);
    expect(nextRunNumber(hole([run(3, 1.2, 2.1), run(4, 2.1, 3, { withdrawn: gone })]))).toBe(5);
  });
  it('lastRun: the last one that stands', () => {
    expect(lastRun(hole([run(3, 1.2, 2.1), run(4, 2.1, 3, { withdrawn: gone })]))?.number).toBe(3);
  });
  it('runOnBench: the newest run with core and without pieces', () => {
    const logged = run(5, 3, 3.9, { pieces: [piece('R5', 1, 0.7)] });
    const empty = run(6, 3.9, 4.7, { nothingRecovered: true });
    expect(runOnBench(hole([run(3, 1.2, 2.1), run(4, 2.1, 3), logged, empty]))?.number).toBe(4);
  });
  it('runOnBench: the newest run where all have pieces', () => {
    const logged = run(5, 3, 3.9, { pieces: [piece('R5', 1, 0.7)] });
    expect(runOnBench(hole([run(4, 2.1, 3, { pieces: [piece('R4', 1, 0.8)] }), logged]))?.number).toBe(5);
  });
  it('drilled and benched: counter to counter, and the lengths that stand', () => {
    const one = run(5, 3, 3.9, {
      pieces: [piece('R5', 1, 0.42), piece('R5', 2, 0.31), piece('R5', 3, 0.5, { withdrawn: gone })],
    });
    expect(drilled(one)).toBeCloseTo(0.9, 12);
    expect(benched(one)).toBeCloseTo(0.73, 12);
    expect(nextPieceNumber(one)).toBe(4);
    expect(drilled({ ...one, readings: {} })).toBeNull();
  });
  it('findIce: a piece with its run, a run alone, or nothing', () => {
    const one = run(5, 3, 3.9, { pieces: [piece('R5', 1, 0.42)] });
    expect(findIce(hole([one]), 'R5.1')).toEqual({ run: one, piece: one.pieces[0] });
    expect(findIce(hole([one]), 'R5')).toEqual({ run: one, piece: undefined });
    expect(findIce(hole([one]), 'hole')).toBeUndefined();
  });
  it('findMeasured: a sounding by its id, the zeros by the hole’s, else nothing', () => {
    const sounding = thing('S1', 'sounding');
    const zero = thing('Z1', 'zero');
    const one = { ...hole([run(5, 3, 3.9)]), soundings: [sounding], zeros: [zero] };
    expect(findMeasured(one, 'S1')).toEqual([sounding]);
    expect(findMeasured(one, 'hole')).toEqual([zero]);
    expect(findMeasured(one, 'R5')).toEqual([]);
  });
  it('standing: leaves the withdrawn out', () => {
    expect(standing([run(1, 0, 1, { withdrawn: gone }), run(2, 1, 2)]).map((one) => one.number)).toEqual([2]);
  });
});
