import { verticalPieces } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import { inclinationStations } from './inclination.ts';
import { plainHole } from './plain-hole.suite.ts';

describe('inclinationStations', () => {
  it('are those that stand, in order of depth, the last one said where a depth was measured twice', () => {
    const { phone, hole, solve } = plainHole();
    phone.log('inclination', { depth: '2 m', angle: '3°', azimuth: '40°' }, hole);
    phone.log('inclination', { depth: '1 m', angle: '2°', azimuth: '30°', sd: '0.1°' }, hole);
    phone.log('inclination', { depth: '2 m', angle: '4°', azimuth: '50°' }, hole);
    const wrong = phone.log('inclination', { depth: '1.5 m', angle: '14°' }, hole);
    phone.do({ do: 'withdraw', thing: wrong, reason: 'another hole' });
    const { view, solution } = solve();
    const stations = inclinationStations(view);
    expect(
      stations.map(({ depth, inclination, inclinationSd }) => [depth, inclination, inclinationSd]),
    ).toEqual([
      [1, 2, 0.1],
      [2, 4, 0.3],
    ]);
    const last = verticalPieces(stations, solution.pieces).at(-1)!;
    expect(last.bottom.vertical.value).toBeLessThan(solution.pieces.at(-1)!.bottom.value);
  });
});
