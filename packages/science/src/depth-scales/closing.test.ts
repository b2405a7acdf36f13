import { describe, expect, it } from 'vitest';
import type { DepthReadings, PieceReading } from '../depth/readings.ts';
import { solveDepths } from '../depth/solve.ts';
import { closing } from './closing.ts';

/** Invented: runs of 90 cm that bring 88 cm, and a last one to be judged. */
const hole = (last: Partial<DepthReadings['runs'][number]>, pieces: readonly Partial<PieceReading>[]) => {
  const runs = Array.from({ length: 8 }, (_, i) => ({ id: `${i + 1}`, from: 0.9 * i, to: 0.9 * (i + 1) }));
  const readings: DepthReadings = {
    runs: [...runs, { id: 'last', from: 7.2, to: 8.1, ...last }],
    pieces: [
      ...runs.map(({ id }) => ({ id: `p${id}`, run: id, length: 0.89, topBreak: 'fits' as const })),
      ...pieces.map((piece, i) => ({ id: `l${i}`, run: 'last', topBreak: 'fits' as const, ...piece })),
    ],
    soundings: [],
  };
  const solution = solveDepths(readings);
  return { account: closing(readings, solution, 'last'), scale: solution.learned.cableScale.value };
};

describe('closing', () => {
  it('of a run whose core is as long as its advance closes, and shows the account', () => {
    const { account, scale } = hole({}, [{ length: 0.45 }, { length: 0.42, topBreak: 'loss', loss: 0.015 }]);
    expect(account).toMatchObject({ closes: true });
    expect(account?.advance).toBeCloseTo(0.9, 12);
    expect(account?.core).toBeCloseTo(0.87, 12);
    expect(account?.lost).toBeCloseTo(0.015, 12);
    const { advance, chips, stubBefore, core, lost, unseen, stub, difference } = account as NonNullable<
      typeof account
    >;
    expect(difference).toBeCloseTo(
      advance / (1 + scale) - chips + stubBefore - core - lost - unseen - stub,
      12,
    );
  });

  it('ice left standing is a stub and no contradiction', () => {
    const { account } = hole({}, [{ length: 0.6 }]);
    expect(account?.closes).toBe(true);
    expect(account?.stub).toBeGreaterThan(0.2);
  });

  it('more core than hole does not close', () => {
    const { account } = hole({}, [{ length: 1.3 }]);
    expect(account?.closes).toBe(false);
    expect(account?.difference).toBeLessThan(-0.2);
  });

  it('the tolerance is two standard deviations of the readings, worked by hand', () => {
    const readings: DepthReadings = {
      runs: [{ id: 'last', from: 0, to: 0.9 }],
      pieces: [
        { id: 'a', run: 'last', length: 0.4, topBreak: 'fits' },
        { id: 'b', run: 'last', length: 0.46, topBreak: 'loss', loss: 0.02 },
      ],
      soundings: [],
    };
    const solution = solveDepths(readings);
    const counter = 2 * (0.007 ** 2 + 0.01 ** 2 / 12);
    const lengths = 2 * 0.006 ** 2 + (2 * 0.001) ** 2;
    const loss = (0.002 + 0.4 * 0.02) ** 2;
    const chips = solution.learned.fillMean.value ** 2;
    const scale = (solution.learned.cableScale.sd * 0.9) ** 2;
    expect(closing(readings, solution, 'last')?.tolerance).toBeCloseTo(
      2 * Math.sqrt(counter + lengths + loss + chips + scale),
      12,
    );
  });

  it('breaks that nobody can tell count with the mean that was learned', () => {
    const { account } = hole({}, [{ length: 0.44 }, { length: 0.43, topBreak: 'unsure' }]);
    expect(account?.unseen).toBeGreaterThan(0.002);
    expect(account?.lost).toBe(0);
  });

  it('is not given where the counter or a length was not read', () => {
    expect(hole({}, [{}]).account).toBeNull();
    const readings: DepthReadings = { runs: [{ id: '1', to: 0.9 }], pieces: [], soundings: [] };
    expect(closing(readings, solveDepths(readings), '1')).toBeNull();
    expect(closing(readings, solveDepths(readings), '7')).toBeNull();
  });
});
