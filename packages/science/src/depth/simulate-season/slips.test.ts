import { describe, expect, it } from 'vitest';
import { seeded } from '../../random/index.ts';
import { type SlipKind, simulateSeason, type TrueSlip, usualPlan, withSlips } from './index.ts';

const written = Array.from({ length: 60 }, (_, i) => {
  const season = simulateSeason(seeded(i + 1), { ...usualPlan, habits: 'drawn' });
  return { season, ...withSlips(seeded(1000 + i), season, 0.01) };
});
const all = written.flatMap(({ slips, ...rest }) => slips.map((slip) => ({ slip, slips, ...rest })));
const of = (kind: SlipKind) => all.filter(({ slip }) => slip.kind === kind);
type Readings = (typeof written)[number]['readings'];

const readingOf = (readings: Readings, { what, which, field }: TrueSlip): number | undefined => {
  if (what === 'piece') return readings.pieces.find((piece) => piece.id === which)?.length;
  if (what === 'sounding') return readings.soundings.find((sounding) => sounding.id === which)?.depth;
  const run = readings.runs.find((one) => one.id === which);
  return field === 'to' ? run?.to : run?.from;
};

describe('withSlips', () => {
  it('makes about as many as asked for, of every kind, at least 5 runs apart', () => {
    const readings = written.reduce(
      (sum, { readings: { runs, pieces, soundings } }) =>
        sum + 2 * runs.length + pieces.length + soundings.length,
      0,
    );
    expect(all.length / readings).toBeGreaterThan(0.0085);
    expect(all.length / readings).toBeLessThan(0.0105);
    expect(new Set(all.map(({ slip }) => slip.kind)).size).toBe(8);
    for (const { slips } of written)
      for (const one of slips)
        for (const other of slips)
          if (one !== other) expect(Math.abs(one.at - other.at)).toBeGreaterThanOrEqual(5);
  });
  it.each(['10 cm', '1 m', 'swapped digits'] as const)('%s: the reading is off by the size told', (kind) => {
    expect(of(kind).length).toBeGreaterThan(20);
    for (const { slip, season, readings } of of(kind)) {
      const right = readingOf(season.readings, slip) as number;
      const wrong = readingOf(readings, slip) as number;
      // a zero that moved above it shifts a counter reading too
      if (slip.what !== 'run') expect(wrong - right).toBeCloseTo(slip.size, 6);
      if (kind === '10 cm') expect(Math.abs(slip.size)).toBeCloseTo(0.1, 6);
      if (kind === '1 m') expect(Math.abs(slip.size)).toBeCloseTo(1, 6);
    }
  });
  it('swapped digits: the same digits in another order', () => {
    for (const { slip, season, readings } of of('swapped digits')) {
      if (slip.what !== 'piece') continue;
      const digits = (value: number | undefined) => [...(value as number).toFixed(3)].sort().join('');
      expect(digits(readingOf(readings, slip))).toBe(digits(readingOf(season.readings, slip)));
    }
  });
  it('doubled and missing pieces are in the log twice and not at all', () => {
    for (const { slip, readings } of of('doubled piece')) {
      const name = slip.which.replace(' again', '');
      expect(readings.pieces.filter(({ id }) => id === name || id === slip.which).length).toBe(2);
    }
    for (const { slip, readings } of of('missing piece'))
      expect(readings.pieces.some(({ id }) => id === slip.which)).toBe(false);
  });
  it('a moved zero shifts every later start and end by the same', () => {
    const { slip, season, readings } = of('zero moved').find(
      ({ season: { readings: clean }, slip: { at } }) => clean.runs[at + 1]?.to !== undefined,
    ) as (typeof all)[number];
    const r = slip.at + 1;
    const before = season.readings.runs[r].to as number;
    expect((readings.runs[r].to as number) - before).toBeCloseTo(slip.size, 1);
  });
  it('lost ice not logged: the break is said to fit, and 5 cm or more are gone', () => {
    for (const { slip, season, readings } of of('lost ice not logged')) {
      expect(readings.pieces.find(({ id }) => id === slip.which)).toMatchObject({ topBreak: 'fits' });
      const i = season.truth.pieceIds.indexOf(slip.which);
      expect(season.truth.gap[i]).toBeCloseTo(-slip.size, 9);
      expect(slip.size).toBeLessThan(-0.05);
    }
  });
  it('wrong run: pieces under a neighbouring run, or two runs with each other’s counter readings', () => {
    for (const { slip, season, readings } of of('wrong run')) {
      if (slip.field === 'run')
        expect(readings.pieces.find(({ id }) => id === slip.which)?.run).toBe(slip.otherRun);
      else expect(readings.runs[slip.at].from).not.toBe(season.readings.runs[slip.at].from);
    }
  });
  it('leaves the season without slips as it was', () => {
    const season = simulateSeason(seeded(5));
    const before = JSON.stringify(season);
    withSlips(seeded(6), season, 0.01);
    expect(JSON.stringify(season)).toBe(before);
  });
});
