import type { Chart } from '@firnbook/drawing';
import { dansgaardJohnsen, type FlowModel, nye, twoParameter } from '@firnbook/science/dating';

const flow = { thickness: 250, accumulation: 0.45 };
const at = (model: FlowModel) =>
  Array.from({ length: 123 }, (_, i) => [model.age(2 * i), 2 * i] as const).slice(1);

export const chart: Chart = {
  title: 'Age by three flow models: 250 m of ice, 0.45 m a year',
  x: { label: 'age', unit: 'a', from: 1, to: 100_000, log: true },
  y: { label: 'depth, metres of ice', unit: 'm', from: 250, to: 0 },
  curves: [
    { label: 'Nye 1963', at: at(nye(flow)) },
    { label: 'Dansgaard & Johnsen 1969, h = 75 m', at: at(dansgaardJohnsen({ ...flow, kink: 75 })) },
    { label: 'two-parameter, p = 0.8', at: at(twoParameter({ ...flow, p: 0.8 })) },
  ],
};
