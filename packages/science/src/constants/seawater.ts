import type { Constant } from './constant.ts';

const millero =
  'F. J. Millero, R. Feistel, D. G. Wright, T. J. McDougall 2008, Deep-Sea Res. I 55, 50-72, table 4, doi:10.1016/j.dsr.2007.10.001 (table read in public files)';

const part = (symbol: string, value: number): Constant => ({
  symbol,
  what: `${symbol} in reference sea water of 35.16504 g/kg`,
  value,
  sd: null,
  unit: 'g/kg',
  source: millero,
  seen: 'read',
});

/** Dissolved matter of reference sea water, and other ratios that the trade takes in its place. */
export const seawater = {
  Na: part('Na', 10.78145),
  Mg: part('Mg', 1.28372),
  Ca: part('Ca', 0.41208),
  K: part('K', 0.3991),
  Sr: part('Sr', 0.00795),
  Cl: part('Cl', 19.35271),
  SO4: part('SO4', 2.71235),
  HCO3: part('HCO3', 0.10481),
  Br: part('Br', 0.06728),
  CO3: part('CO3', 0.01434),
  'B(OH)4': part('B(OH)4', 0.00795),
  F: part('F', 0.0013),
  OH: part('OH', 0.00014),
  'B(OH)3': part('B(OH)3', 0.01944),
  CO2: part('CO2', 0.00042),
  mirabiliteSulphateToSodium: {
    symbol: 'k_mir',
    what: 'sulphate to sodium by mass in sea salt that lost mirabilite (Na2SO4 10 H2O) as the brine froze',
    value: 0.07,
    // a depletion of 60 to 80 %, as the abstract has it, is 0.05 to 0.10: a rectangle of that width
    sd: 0.0145,
    unit: 'g/g',
    source:
      'D. Wagenbach et al. 1998, J. Geophys. Res. 103 (D9), 10961-10974, doi:10.1029/97JD01804 (depletion of winter salt by 60 to 80 % read in the abstract; 0.07 from memory)',
    seen: 'from memory',
  },
  dustCalciumToSodium: {
    symbol: 'R_t',
    what: 'calcium to sodium by mass in dust (mean crust)',
    value: 1.78,
    sd: null,
    unit: 'g/g',
    source:
      'R. Röthlisberger et al. 2002, after H. J. M. Bowen 1979, Environmental Chemistry of the Elements',
    seen: 'from memory',
  },
} as const satisfies Readonly<Record<string, Constant>>;
