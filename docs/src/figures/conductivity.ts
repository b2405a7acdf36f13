import type { Chart } from '@firnbook/drawing';
import { firnConductivity } from '@firnbook/science/ice';

const temperature = 253.15;
/** From where to where each is drawn: what its formula takes. */
const curve = (name: keyof typeof firnConductivity, from: number, to: number, dashed = false) => ({
  label: name,
  at: Array.from({ length: 81 }, (_, i) => {
    const density = from + ((to - from) * i) / 80;
    return [density, firnConductivity[name](density, temperature)] as const;
  }),
  ...(dashed ? { dashed: true as const } : {}),
});

export const chart: Chart = {
  title: 'Thermal conductivity of snow and firn at -20 °C, by who published it',
  x: { label: 'density', unit: 'kg/m³', from: 100, to: 920 },
  y: { label: 'conductivity', unit: 'W/m/K', from: 0.03, to: 3, log: true },
  curves: [
    curve('Calonne 2019', 100, 917),
    curve('Calonne 2011', 100, 550),
    curve('Sturm 1997', 100, 600),
    curve('Yen 1981 (snow)', 100, 917),
    curve('Jordan 1991', 100, 917),
    curve('Marchenko 2019', 350, 900),
    curve('Van Dusen 1929', 100, 917, true),
    curve('Schwerdtfeger 1963', 100, 917, true),
  ],
};
