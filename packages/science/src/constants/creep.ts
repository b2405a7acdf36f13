import type { Constants } from './constant.ts';

const book = 'Cuffey & Paterson 2010, The Physics of Glaciers, 4th edition';
const table = `${book}, Table 3.4 (as three public files quote it)`;
const equation = `${book}, eq. 3.35`;
const budd =
  'Paterson & Budd 1982, Cold Reg. Sci. Technol. 6, 175 (numbers as a public model configuration has them)';

const base = (celsius: number, value: number) =>
  ({
    symbol: `A(${celsius} °C)`.replace('-', '−'),
    what: `creep parameter of ice for n = 3 at ${celsius} °C`.replace('-', '−'),
    value,
    sd: null,
    unit: '1/s/Pa3',
    source: table,
    seen: 'read',
  }) as const;

/** Creep of ice, ε̇ = A τ³. No standard uncertainty of any of these was found in print. */
export const creepConstants = {
  tableAt0: base(0, 2.4e-24),
  tableAt2: base(-2, 1.7e-24),
  tableAt5: base(-5, 9.3e-25),
  tableAt10: base(-10, 3.5e-25),
  tableAt15: base(-15, 2.1e-25),
  tableAt20: base(-20, 1.2e-25),
  tableAt25: base(-25, 6.8e-26),
  tableAt30: base(-30, 3.7e-26),
  tableAt35: base(-35, 2.0e-26),
  tableAt40: base(-40, 1.0e-26),
  tableAt45: base(-45, 5.2e-27),
  tableAt50: base(-50, 2.6e-27),
  equationBase: {
    symbol: 'A*',
    what: 'creep parameter of ice for n = 3 at −10 °C',
    value: 3.5e-25,
    sd: null,
    unit: '1/s/Pa3',
    source: equation,
    seen: 'from memory',
  },
  equationBaseTemperature: {
    symbol: 'T*',
    what: 'temperature at which the activation energy changes; on the book’s scale, where 0 °C is 273 K',
    value: 263,
    sd: null,
    unit: 'K',
    source: equation,
    seen: 'from memory',
  },
  equationCold: {
    symbol: 'Q−',
    what: 'activation energy of creep below T*',
    value: 60_000,
    sd: null,
    unit: 'J/mol',
    source: equation,
    seen: 'from memory',
  },
  equationWarm: {
    symbol: 'Q+',
    what: 'activation energy of creep above T*',
    value: 115_000,
    sd: null,
    unit: 'J/mol',
    source: equation,
    seen: 'from memory',
  },
  equationGasConstant: {
    symbol: 'R',
    what: 'gas constant in the digits that the equation of creep is used with',
    value: 8.314,
    sd: null,
    unit: 'J/mol/K',
    source: equation,
    seen: 'from memory',
  },
  meltingSlope: {
    symbol: 'β',
    what: 'melting point lost per pressure, for the temperature that creep counts from',
    value: 7e-8,
    sd: null,
    unit: 'K/Pa',
    source: equation,
    seen: 'from memory',
  },
  buddCold: {
    symbol: 'A₀ cold',
    what: 'factor of creep below 263.15 K',
    value: 3.61e-13,
    sd: null,
    unit: '1/s/Pa3',
    source: budd,
    seen: 'read',
  },
  buddColdEnergy: {
    symbol: 'Q cold',
    what: 'activation energy of creep below 263.15 K',
    value: 60_000,
    sd: null,
    unit: 'J/mol',
    source: budd,
    seen: 'read',
  },
  buddWarm: {
    symbol: 'A₀ warm',
    what: 'factor of creep above 263.15 K',
    value: 1.73e3,
    sd: null,
    unit: '1/s/Pa3',
    source: budd,
    seen: 'read',
  },
  buddWarmEnergy: {
    symbol: 'Q warm',
    what: 'activation energy of creep above 263.15 K',
    value: 139_000,
    sd: null,
    unit: 'J/mol',
    source: budd,
    seen: 'read',
  },
  buddSwitch: {
    symbol: 'T switch',
    what: 'temperature where the activation energy changes',
    value: 263.15,
    sd: null,
    unit: 'K',
    source: budd,
    seen: 'read',
  },
} as const satisfies Constants;
