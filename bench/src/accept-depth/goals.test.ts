import { describe, expect, it } from 'vitest';
import { goalsOf } from './goals.ts';
import type { Tally } from './tally.ts';

const share = (value: number) => ({ share: value, error: 0.005 });
const all = (value: number) => ({ tops: share(value), bottoms: share(value), holes: share(value) });
const good: Tally = {
  seasons: 2000,
  clean: all(0.95),
  slipped: all(0.94),
  rms: { solved: 0.02, slipped: 0.03, dense: 0.025, logger: 0.4, driller: 0.2 },
  flags: { clean: 0.2, slipped: 0.3, wrongWords: 0.1 },
  slips: [],
  revealable: { made: 100, found: 80 },
  plain: { made: 100, found: 99 },
  notSettled: 0,
};
const missed = (change: Partial<Tally>) =>
  goalsOf({ ...good, ...change })
    .filter(({ isMet }) => !isMet)
    .map(({ what }) => what);

describe('goals', () => {
  it('are all met where the figures are good', () => {
    expect(missed({})).toEqual([]);
  });
  it.each([0.929, 0.971])('coverage of %d misses three', (value) => {
    expect(missed({ clean: all(value) })).toHaveLength(3);
    expect(missed({ slipped: all(value) })).toHaveLength(3);
  });
  it('an rms error above the dense one, above half of the others, is missed', () => {
    expect(missed({ rms: { ...good.rms, dense: 0.019 } })).toHaveLength(1);
    expect(missed({ rms: { ...good.rms, logger: 0.039 } })).toHaveLength(1);
    expect(missed({ rms: { ...good.rms, driller: 0.039 } })).toHaveLength(1);
  });
  it('79 of 100 revealable slips, 98 of 100 plain ones, one false flag in 200 are missed', () => {
    expect(missed({ revealable: { made: 100, found: 79 } })).toHaveLength(1);
    expect(missed({ plain: { made: 100, found: 98 } })).toHaveLength(1);
    expect(missed({ flags: { ...good.flags, clean: 1 } })).toHaveLength(1);
  });
});
