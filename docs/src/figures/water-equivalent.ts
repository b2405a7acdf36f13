import type { Chart } from '@firnbook/drawing';
import { coreDensity, coreWater } from '@firnbook/science/density';
import { herronLangway } from '@firnbook/science/firn';

const column = herronLangway({ temperature: 253.15, accumulation: 0.41, surfaceDensity: 360 });
const [step, length, diameter, tare] = [0.8, 0.77, 0.098, 0.152];

/** An invented core of 100 m, every piece weighed, 3 cm lost at each break. */
const pieces = Array.from({ length: 125 }, (_, i) => {
  const top = i * step;
  const water = column.waterEquivalent(top + length) - column.waterEquivalent(top);
  return {
    id: String(i + 1),
    cutterSet: 'one',
    gross: 250 * Math.PI * diameter ** 2 * water + tare,
    tare,
    lengths: [length],
    diameters: [diameter],
    sawnEnds: 0 as const,
    top,
    bottom: top + length,
  };
});
const scale = coreWater(coreDensity(pieces));
const errors = (of: 'randomSd' | 'sharedSd') =>
  (scale?.nodes ?? [])
    .filter((_, i) => i % 4 === 0)
    .map(({ depth, [of]: sd }) => [1000 * sd, depth] as const);

export const chart: Chart = {
  title: 'Standard deviation of the water equivalent of an invented core',
  x: { label: 'standard deviation', unit: 'mm w.e.', from: 0, to: 400 },
  y: { label: 'depth', unit: 'm', from: 100, to: 0 },
  curves: [
    { label: 'random', at: errors('randomSd') },
    { label: 'shared by the cutter set', at: errors('sharedSd') },
  ],
};
