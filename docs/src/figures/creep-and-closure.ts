import type { Chart } from '@firnbook/drawing';
import {
  closureRate,
  creepParameter,
  creepVariants,
  overburden,
  timeToLose,
} from '@firnbook/science/mechanics';
import { inKelvin } from '@firnbook/science/units';

const [table, , budd] = creepVariants;

/** Days until a dry hole of 126 mm has lost 2 mm, by depth. */
const days = (celsius: number, variant: (typeof creepVariants)[number]) =>
  Array.from({ length: 59 }, (_, i) => 10 + 5 * i).flatMap((depth) => {
    const rate = closureRate(creepParameter(inKelvin(celsius), variant), overburden(850, depth, 9.80665));
    const time = timeToLose(0.126, 0.002, rate);
    return time === null ? [] : [[time / 86_400, depth] as const];
  });

export const chart: Chart = {
  title: 'Days until a dry hole of 126 mm lost 2 mm',
  x: { label: 'days', unit: 'd', from: 0.1, to: 5000, log: true },
  y: { label: 'depth', unit: 'm', from: 300, to: 0 },
  curves: [
    { label: '−5 °C', at: days(-5, table) },
    { label: '−15 °C', at: days(-15, table) },
    { label: '−30 °C', at: days(-30, table) },
    { label: '−15 °C, Paterson & Budd', dashed: true, at: days(-15, budd) },
  ],
};
