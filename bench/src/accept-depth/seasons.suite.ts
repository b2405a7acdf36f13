import { describe, expect, it } from 'vitest';
import { COVERAGE, FALSE_FLAGS } from './goals.ts';
import { judgeSeason, type Way } from './judge-season.ts';
import { seedsOf } from './seeds.ts';
import { type Share, tally } from './tally.ts';

const SEASONS = 200;
/** The same seasons at every run, so that a test does not fail by chance; `npm run accept:depth` takes others. */
const WORD = '200 seasons';
/** Depths of one season go astray together: 200 seasons tell a share to within 2 of these standard errors. */
const ERRORS = 2;

/** 200 of the seasons of `npm run accept:depth`, one way of working. */
export const describeSeasons = (way: Way): void => {
  describe(`solveDepths on ${SEASONS} simulated seasons, ${way}`, () => {
    const { clean, rms, flags, revealable } = tally(
      seedsOf(WORD, SEASONS).map((seed) => judgeSeason(seed, way)),
    );
    const within = ({ share, error }: Share) => {
      // a standard error of 2 % and more would make the promise empty
      expect(error).toBeLessThan(0.02);
      expect(share).toBeGreaterThan(COVERAGE.least - ERRORS * error);
      expect(share).toBeLessThan(COVERAGE.most + ERRORS * error);
    };

    for (const which of ['tops', 'bottoms', 'holes'] as const)
      it(`95 % intervals hold 93 to 97 % of the true ${which}, give or take two standard errors`, () => {
        within(clean[which]);
      });
    it('the median rms error is not above that of a dense general solution of the same readings', () => {
      expect(rms.solved).toBeLessThanOrEqual(rms.dense);
    });
    it("and less than half of that of the logger's sum, and of the driller's depth", () => {
      expect(rms.solved).toBeLessThan(rms.logger / 2);
      expect(rms.solved).toBeLessThan(rms.driller / 2);
    });
    it('fewer than 1 false flag in 200 readings, with and without slips', () => {
      expect(flags.clean).toBeLessThan(FALSE_FLAGS);
      expect(flags.slipped).toBeLessThan(FALSE_FLAGS);
    });
    it('four of five slips of 10 cm and more above the detectable size are found', () => {
      expect(revealable.made).toBeGreaterThan(400);
      expect(revealable.found / revealable.made).toBeGreaterThan(0.8);
    });
  });
};
