import type { Finding } from '@firnbook/science/depth';
import { seeded } from '@firnbook/science/random';
import { simulateSeason, type TrueSlip } from '@firnbook/science/simulate-season';
import { describe, expect, it } from 'vitest';
import { judgeFlags } from './flags.ts';

const season = simulateSeason(seeded(21));
const run = (at: number) => season.readings.runs[at].id;
const flag = (at: number, field: Finding['field'] = 'to'): Finding => ({
  what: 'run',
  which: run(at),
  field,
  size: 0.1,
  likely: '10 cm',
  probability: 0.9,
  detectable: 0.08,
});
const slip = (at: number): TrueSlip => ({
  kind: '10 cm',
  at,
  what: 'run',
  which: run(at),
  field: 'to',
  size: 0.1,
});

describe('judgeFlags', () => {
  it('the very reading, one near by, none', () => {
    const { slips, falseFlags } = judgeFlags(season, [slip(20), slip(40), slip(60)], [flag(20), flag(42)]);
    expect(slips.map(({ found }) => found)).toEqual(['named', 'near', 'no']);
    expect(falseFlags).toEqual([]);
  });
  it('a flag three runs away is a false alarm', () => {
    const { slips, falseFlags } = judgeFlags(season, [slip(20)], [flag(23)]);
    expect(slips[0].found).toBe('no');
    expect(falseFlags.length).toBe(1);
  });
  it('a flag at a break that is said to fit where 2 cm are lost is no false alarm, and counted by itself', () => {
    const found = Array.from({ length: 100 }, (_, i) => simulateSeason(seeded(i + 1))).find(
      ({ readings, truth }) =>
        truth.pieceIds.some(
          (id, i) => truth.gap[i] > 0.03 && readings.pieces.find((one) => one.id === id)?.topBreak === 'fits',
        ),
    );
    const { readings, truth } = found as typeof season;
    const which = truth.pieceIds.find(
      (id, i) => truth.gap[i] > 0.03 && readings.pieces.find((one) => one.id === id)?.topBreak === 'fits',
    ) as string;
    const judged = judgeFlags(
      found as typeof season,
      [],
      [{ ...flag(1), what: 'piece', which, field: 'topBreak' }],
    );
    expect(judged.falseFlags).toEqual([]);
    expect(judged.wrongWords).toBe(1);
  });
});
