import type { Chart } from '@firnbook/drawing';
import { elasticStretch, thermalStretch } from '@firnbook/science/mechanics';
import { inKelvin } from '@firnbook/science/units';

const g = 9.80665;
/** Centimetres by depth: a drill of 70 kg on a cable of 0.115 kg/m and 400 kN. */
const stretch = (of: (length: number) => number) =>
  Array.from({ length: 61 }, (_, i) => [100 * of(5 * i), 5 * i] as const);
const elastic = (load: number) => (length: number) =>
  elasticStretch({ length, load: load * g, weight: 0.115 * g, stiffness: 4e5 });
const thermal = (length: number) => thermalStretch(length, 1.2e-5, inKelvin(-15), inKelvin(10));

export const chart: Chart = {
  title: 'Stretch of a cable of EA = 400 kN and 0.115 kg/m',
  x: { label: 'stretch', unit: 'cm', from: -15, to: 75 },
  y: { label: 'cable let out', unit: 'm', from: 300, to: 0 },
  curves: [
    { label: 'drill of 70 kg', at: stretch(elastic(70)) },
    { label: 'cable alone', at: stretch(elastic(0)) },
    { label: '25 K colder than calibrated', dashed: true, at: stretch(thermal) },
    { label: 'drill and cold', at: stretch((length) => elastic(70)(length) + thermal(length)) },
  ],
};
