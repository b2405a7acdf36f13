import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { defaultDensityAssumptions as assumed } from './assumptions.ts';
import { poolDiameters } from './pool-diameters.ts';

const pieces = (...diameters: number[][]) => diameters.map((own) => ({ cutterSet: 'a', diameters: own }));

describe('diameters pooled over a cutter set', () => {
  it('draws a piece with one reading towards its set, one with many hardly', () => {
    const { sets, diameters } = poolDiameters(
      pieces([0.098], [0.0981], [0.0979], [0.098], [0.0986], Array(20).fill(0.0986)),
      assumed,
    );
    const mean = sets.get('a')!.mean;
    const [one, many] = [diameters[4]!, diameters[5]!];
    expect(one.value).toBeLessThan(0.0986);
    expect(one.value).toBeGreaterThan(mean);
    expect(many.value).toBeGreaterThan(one.value);
    expect(many.own).toBeGreaterThan(one.own);
    expect(one.randomSd).toBeLessThan(sets.get('a')!.readingSd);
  });

  it('never lets the shared error fall, however many readings there are', () => {
    const few = poolDiameters(pieces([0.098]), assumed).diameters[0]!;
    const many = poolDiameters(pieces(...Array.from({ length: 200 }, () => [0.098, 0.0981])), assumed);
    expect(few.sharedSd).toBeGreaterThanOrEqual(assumed.sharedDiameterSd);
    for (const diameter of many.diameters)
      expect(diameter!.sharedSd).toBeGreaterThanOrEqual(assumed.sharedDiameterSd);
    expect(many.sets.get('a')!.meanSd).toBeLessThan(0.00005);
  });

  it('gives a piece without a reading that of its set, and none where its set has none', () => {
    const { sets, diameters } = poolDiameters(
      [...pieces([0.098], [0.0982], []), { cutterSet: 'b', diameters: [] }],
      assumed,
    );
    expect(diameters[2]!.value).toBe(sets.get('a')!.mean);
    expect(diameters[2]!.randomSd).toBe(sets.get('a')!.pieceSd);
    expect(diameters[3]).toBeNull();
  });

  it('takes a diameter far from its set as read, and does not let it move the set', () => {
    const good = Array.from({ length: 20 }, (_, i) => [0.098 + 0.0001 * Math.sin(i)]);
    const alone = poolDiameters(pieces(...good), assumed).sets.get('a')!;
    const { sets, diameters } = poolDiameters(pieces(...good, [0.089]), assumed);
    expect(diameters[20]!.isOutlying).toBe(true);
    expect(diameters[20]!.value).toBe(0.089);
    expect(sets.get('a')!.mean).toBeCloseTo(alone.mean, 12);
    expect(sets.get('a')!.readings).toBe(21);
  });

  it('is nearer the truth than the readings alone, by what it says: 4,000 simulated pieces', () => {
    const random = seeded(11);
    let [own, pooled, said] = [0, 0, 0];
    let count = 0;
    for (let core = 0; core < 40; core++) {
      const truth = Array.from({ length: 100 }, () => 0.098 + 0.0002 * random.normal());
      const readings = truth.map((d) => [d + 0.0005 * random.normal(), d + 0.0005 * random.normal()]);
      const { diameters } = poolDiameters(pieces(...readings), assumed);
      truth.forEach((d, i) => {
        own += ((readings[i][0] + readings[i][1]) / 2 - d) ** 2;
        pooled += (diameters[i]!.value - d) ** 2;
        said += diameters[i]!.randomSd ** 2;
        count += 1;
      });
    }
    expect(pooled).toBeLessThan(0.5 * own);
    expect(Math.sqrt(pooled / count) / Math.sqrt(said / count)).toBeCloseTo(1, 1);
  });
});
