import type { Constant } from './constant.ts';

const rudnickGao =
  'R. L. Rudnick, S. Gao 2003, Treatise on Geochemistry 3, 1-64, upper crust, doi:10.1016/B0-08-043751-6/03016-4 (table read in public files)';

const oxide = (symbol: string, value: number): Constant => ({
  symbol,
  what: `${symbol} in the upper continental crust`,
  value,
  sd: null,
  unit: '%',
  source: rudnickGao,
  seen: 'read',
});
const trace = (symbol: string, value: number): Constant => ({
  ...oxide(symbol, value),
  unit: 'mg/kg',
});

/** Upper continental crust: oxides in percent of the mass (all iron as FeO), trace elements in mg/kg. */
export const crust = {
  SiO2: oxide('SiO2', 66.6),
  Al2O3: oxide('Al2O3', 15.4),
  FeO: oxide('FeO', 5.04),
  MnO: oxide('MnO', 0.1),
  MgO: oxide('MgO', 2.48),
  CaO: oxide('CaO', 3.59),
  Na2O: oxide('Na2O', 3.27),
  TiO2: oxide('TiO2', 0.64),
  K2O: oxide('K2O', 2.8),
  P2O5: oxide('P2O5', 0.15),
  Li: trace('Li', 24),
  V: trace('V', 97),
  Cr: trace('Cr', 92),
  Co: trace('Co', 17.3),
  Ni: trace('Ni', 47),
  Cu: trace('Cu', 28),
  Zn: trace('Zn', 67),
  As: trace('As', 4.8),
  Rb: trace('Rb', 84),
  Sr: trace('Sr', 320),
  Zr: trace('Zr', 193),
  Cd: trace('Cd', 0.09),
  Sn: trace('Sn', 2.1),
  Sb: trace('Sb', 0.4),
  Cs: trace('Cs', 4.9),
  Ba: trace('Ba', 628),
  La: trace('La', 31),
  Ce: trace('Ce', 63),
  Nd: trace('Nd', 27),
  Sm: trace('Sm', 4.7),
  Hg: trace('Hg', 0.05),
  Tl: trace('Tl', 0.9),
  Pb: trace('Pb', 17),
  Bi: trace('Bi', 0.16),
  Th: trace('Th', 10.5),
  U: trace('U', 2.7),
  S: trace('S', 62),
  Br: trace('Br', 1.6),
} as const satisfies Readonly<Record<string, Constant>>;
