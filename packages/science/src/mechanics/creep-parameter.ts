import { creepConstants as known } from '../constants/creep.ts';
import { universal } from '../constants/universal.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type { GlenParameter, Kelvin, Pascals } from '../units.ts';

/** Published creep parameters of ice by name; the first is the default. */
export const creepVariants = [
  'Cuffey & Paterson 2010, table',
  'Cuffey & Paterson 2010, equation',
  'Paterson & Budd 1982',
] as const;
export type CreepVariant = (typeof creepVariants)[number];

const where = 'creep parameter of ice';

/** Of Table 3.4: degrees Celsius, cold to warm, and the natural logarithm of A. */
const rows = [
  [-50, known.tableAt50],
  [-45, known.tableAt45],
  [-40, known.tableAt40],
  [-35, known.tableAt35],
  [-30, known.tableAt30],
  [-25, known.tableAt25],
  [-20, known.tableAt20],
  [-15, known.tableAt15],
  [-10, known.tableAt10],
  [-5, known.tableAt5],
  [-2, known.tableAt2],
  [0, known.tableAt0],
].map(([celsius, base]) => ({
  celsius: celsius as number,
  log: Math.log((base as { readonly value: number }).value),
}));

/**
 * Creep parameter A of Glen's law with exponent 3, strain rate = A tau^3.
 *
 * - `Cuffey & Paterson 2010, table`: Table 3.4, between its rows ln A goes straight with the temperature (our reading;
 *   the table names no rule). At a row it is the printed value. The pressure does nothing.
 * - `Cuffey & Paterson 2010, equation`: eq. 3.35, A = 3.5e-25 exp(-(Q/R) (1/T_h - 1/T*)), T_h = T + 7e-8 P,
 *   T* = 263 + 7e-8 P, Q = 60 kJ/mol below T*, 115 above. The book's 263 K is its -10 degrees C, where its table has
 *   the same 3.5e-25: its kelvins count the melting point as 273, so 0.15 K is taken off here. Agrees with the table
 *   within 2.8 %.
 * - `Paterson & Budd 1982`: Cold Reg. Sci. Technol. 6, 175: A = A0 exp(-Q/(R T_h)), 3.61e-13 and 60 kJ/mol below
 *   263.15 K, 1.73e3 and 139 kJ/mol above; T_h by the same pressure term.
 *
 * Validity: secondary creep of isotropic, clean ice; the table from -50 degrees C. Old, dusty or oriented ice creeps
 * several times faster (enhancement, not in here). No standard uncertainty was found in print; how far the variants lie
 * apart is a lower bound of it: a quarter to a third below -10 degrees C, a factor of 1.9 at the melting point.
 *
 * @param temperature 223 to 273.15 K (a rounding error below -50 degrees C is none)
 * @param pressure above the ice, 0 to 5e7 Pa
 * @throws QuantityError outside
 */
export const creepParameter = (
  temperature: Kelvin,
  variant: CreepVariant = creepVariants[0],
  pressure: Pascals = 0,
): GlenParameter => {
  mustLie(where, 'temperature', temperature, 223, 273.15, 'K');
  mustLie(where, 'pressure', pressure, 0, 5e7, 'Pa');
  return law[variant](temperature, known.meltingSlope.value * pressure);
};

/**
 * The same for many depths of a hole.
 *
 * @param pressures one to each temperature
 * @param out takes the parameters; nothing is allocated
 * @throws QuantityError as above, for series of different lengths
 */
export const creepParameterAll = (
  temperatures: ArrayLike<Kelvin>,
  variant: CreepVariant,
  pressures: ArrayLike<Pascals>,
  out: Float64Array,
): Float64Array => {
  if (temperatures.length !== pressures.length || out.length < temperatures.length)
    throw new QuantityError(
      where,
      `${temperatures.length} temperatures, ${pressures.length} pressures, room for ${out.length}`,
      'as many of each',
    );
  for (let i = 0; i < temperatures.length; i++)
    out[i] = creepParameter(temperatures[i], variant, pressures[i]);
  return out;
};

/** Each takes the temperature and what the melting point is lowered by, kelvins. */
const law: Readonly<Record<CreepVariant, (temperature: Kelvin, lowered: Kelvin) => GlenParameter>> = {
  'Cuffey & Paterson 2010, table': (temperature) => {
    const celsius = temperature - 273.15;
    let above = 1;
    while (above < rows.length - 1 && rows[above].celsius < celsius) above++;
    const [cold, warm] = [rows[above - 1], rows[above]];
    const share = (celsius - cold.celsius) / (warm.celsius - cold.celsius);
    return Math.exp(cold.log + share * (warm.log - cold.log));
  },
  'Cuffey & Paterson 2010, equation': (temperature, lowered) => {
    const homologous = temperature - 0.15 + lowered;
    const change = known.equationBaseTemperature.value + lowered;
    const energy = (homologous < change ? known.equationCold : known.equationWarm).value;
    return (
      known.equationBase.value *
      Math.exp((-energy / known.equationGasConstant.value) * (1 / homologous - 1 / change))
    );
  },
  'Paterson & Budd 1982': (temperature, lowered) => {
    const homologous = temperature + lowered;
    const [factor, energy] =
      homologous < known.buddSwitch.value
        ? [known.buddCold, known.buddColdEnergy]
        : [known.buddWarm, known.buddWarmEnergy];
    return factor.value * Math.exp(-energy.value / (universal.gasConstant.value * homologous));
  },
};
