import type { Chart } from '@firnbook/drawing';
import { conduct, cylinder, layeredGrid, plainMedium, slab, sphere, transient } from '@firnbook/science/heat';

const [k, density, heatCapacity, size, film, until] = [2.32, 917, 1950, 0.05, 60, 1800];
const counts = [5, 10, 20, 40, 80, 160] as const;

/** Largest error against the series, in shares of the first difference; as many steps as volumes. */
const errorOf = (shape: typeof slab, cells: number): number => {
  const medium = plainMedium(k, density, heatCapacity);
  const grid = layeredGrid(shape.name, [{ thickness: size, medium, cells }]);
  const outside = { temperature: () => 268.15, film };
  const end = conduct({ grid, outside, start: 248.15, step: until / cells, until }, () => false);
  const exact = transient(shape, (film * size) / k, (k / (density * heatCapacity)) * (until / size ** 2));
  return Math.max(
    ...Array.from(grid.places, (place, i) =>
      Math.abs((268.15 - (end.temperatures[i] ?? 0)) / 20 - exact.at(place / size)),
    ),
  );
};

export const chart: Chart = {
  title: 'Error of the finite volumes: 5 cm of ice after half an hour',
  x: { label: 'volumes, and steps in time', unit: '1', from: 4, to: 200, log: true },
  y: { label: 'largest error, share of the difference', unit: '1', from: 1e-6, to: 2e-2, log: true },
  curves: [
    ...[slab, cylinder, sphere].map((shape) => ({
      label: shape.name,
      at: counts.map((cells) => [cells, errorOf(shape, cells)] as const),
    })),
    {
      label: 'a quarter for each halving (second order)',
      dashed: true,
      at: [
        [5, 0.012],
        [160, 0.012 / 1024],
      ],
    },
  ],
};
