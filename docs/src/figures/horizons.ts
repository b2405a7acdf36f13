import type { Chart } from '@firnbook/drawing';
import { type Horizon, horizons } from '@firnbook/science/horizons';

const known = horizons.filter(({ sulphur }) => sulphur !== null);
const at = (own: readonly Horizon[]) =>
  own.map(({ event, sulphur }) => [event.year, sulphur?.value ?? 0] as const);

export const chart: Chart = {
  title: 'Dated eruptions by the sulphur that they brought into the stratosphere',
  x: { label: 'year CE', unit: '1', from: 500, to: 1900 },
  y: { label: 'sulphur', unit: 'Tg', from: 0.5, to: 100, log: true },
  curves: [],
  points: [
    { label: 'month known', at: at(known.filter(({ event }) => event.month !== null)) },
    { label: 'year alone', at: at(known.filter(({ event }) => event.month === null)) },
  ],
};
