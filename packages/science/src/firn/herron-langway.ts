import { firnConstants } from '../constants/firn.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type {
  Kelvin,
  KilogramsPerCubicMetre,
  Metres,
  MetresWaterEquivalent,
  Ratio,
  Years,
} from '../units.ts';

/** A place as the model sees it: steady in climate, dry. */
export interface FirnSite {
  /** Of the firn at 10 m, which is the mean of the year. */
  readonly temperature: Kelvin;
  /** m w.e. a year. */
  readonly accumulation: MetresWaterEquivalent;
  readonly surfaceDensity: KilogramsPerCubicMetre;
  /** Of the model's ice; 917. */
  readonly iceDensity?: KilogramsPerCubicMetre;
  /** Factors on the two rate constants, where a measured profile asks for them; 1. */
  readonly k0Factor?: Ratio;
  readonly k1Factor?: Ratio;
  /** J/mol/K: which gas constant goes with the rate constants, 8.314 (usual) or 8.315; see `constants/firn.ts`. */
  readonly gasConstant?: number;
}

export interface FirnColumn {
  /** Rate constants: m2/Mg and m^(3/2)/(Mg a^(1/2)), as the paper has them. */
  readonly k0: number;
  readonly k1: number;
  /** Where density passes 550 kg/m3: 0 where the surface is denser. */
  readonly depth550: Metres;
  readonly age550: Years;
  readonly iceDensity: KilogramsPerCubicMetre;
  readonly accumulation: MetresWaterEquivalent;
  /** All: @throws QuantityError for a depth or age below 0, a density outside surface to ice. */
  readonly density: (depth: Metres) => KilogramsPerCubicMetre;
  readonly age: (depth: Metres) => Years;
  readonly waterEquivalent: (depth: Metres) => MetresWaterEquivalent;
  readonly depthOfDensity: (density: KilogramsPerCubicMetre) => Metres;
  readonly depthOfAge: (age: Years) => Metres;
  readonly depthOfWater: (water: MetresWaterEquivalent) => Metres;
  /** How much longer the firn above is than its mass as ice: metres of air. */
  readonly firnAir: (depth: Metres) => Metres;
}

/** Mg/m3: end of the first stage. A convention: fits elsewhere have found 530 to 580 kg/m3 (Morris 2018). */
const critical = firnConstants.endOfSettling.value / 1000;

const where = 'Herron & Langway 1980';

/** ln(rho/(rho_i - rho)): grows in proportion to depth within a stage. */
const logit = (density: number, ice: number) => Math.log(density / (ice - density));
/** ln(1 + e^x) without overflow. */
const softplus = (x: number) => (x > 0 ? x + Math.log1p(Math.exp(-x)) : Math.log1p(Math.exp(x)));

/**
 * Density and age of dry polar firn in a steady climate.
 *
 * With rho in Mg/m3, A in m w.e./a, z in m: k0 = 11 exp(-10160/RT), k1 = 575 exp(-21400/RT);
 * d rho/dt = k0 A (rho_i - rho) up to 0.55, k1 A^0.5 (rho_i - rho) above, so that ln(rho/(rho_i - rho)) grows by
 * rho_i k0 a metre, then by rho_i k1/A^0.5. Age, water equivalent and their inverses follow in closed form; since the
 * climate is steady, w.e. = A age.
 *
 * Source: M. M. Herron and C. C. Langway 1980, J. Glaciol. 25(93), 373-385, doi:10.3189/S0022143000015239, eqs. 4 to 11
 * (numbers from memory), exponents a = 1, b = 0.5. The paper gives the accumulation that it models to about 20 %.
 * Where the surface is denser than 550 kg/m3 there is no first stage.
 *
 * Validity: dry firn, calibrated on about -57 to -15 degrees C and 0.02 to 0.5 m w.e./a (from memory, see
 * `outsideCalibration`); not where it melts.
 *
 * @throws QuantityError for a temperature outside 200 to 273.15 K, an accumulation outside 0.001 to 10 m w.e./a, a
 *   surface density outside 50 kg/m3 to that of ice
 */
export const herronLangway = (site: FirnSite): FirnColumn => {
  const { temperature, accumulation: a, k0Factor = 1, k1Factor = 1 } = site;
  const { stage1Factor, stage1Energy, stage2Factor, stage2Energy, gasConstantUsual } = firnConstants;
  const gasConstant = site.gasConstant ?? gasConstantUsual.value;
  const ice = (site.iceDensity ?? 917) / 1000;
  mustLie(where, 'temperature', temperature, 200, 273.15, 'K');
  mustLie(where, 'accumulation', a, 0.001, 10, 'm w.e./a');
  mustLie(where, 'ice density', 1000 * ice, 850, 940, 'kg/m3');
  mustLie(where, 'surface density', site.surfaceDensity, 50, 1000 * ice - 1, 'kg/m3');
  mustLie(where, 'gas constant', gasConstant, 8.31, 8.32, 'J/mol/K');
  for (const [name, factor] of Object.entries({ k0Factor, k1Factor }))
    mustLie(where, name, factor, 1e-3, 1e3, '');
  const k0 = k0Factor * stage1Factor.value * Math.exp(-stage1Energy.value / (gasConstant * temperature));
  const k1 = k1Factor * stage2Factor.value * Math.exp(-stage2Energy.value / (gasConstant * temperature));
  const surface = site.surfaceDensity / 1000;
  const bend = Math.max(critical, surface);
  const [atSurface, atBend] = [logit(surface, ice), logit(bend, ice)];
  // growth of ln(rho/(rho_i - rho)) a metre, and decay of rho_i - rho a year
  const [steep, flat] = [ice * k0, (ice * k1) / Math.sqrt(a)];
  const [fast, slow] = [k0 * a, k1 * Math.sqrt(a)];
  const [softSurface, softBend] = [softplus(atSurface), softplus(atBend)];
  const depth550 = (atBend - atSurface) / steep;
  const age550 = (softBend - softSurface) / fast;

  const x = (depth: Metres): number => {
    if (!(depth >= 0)) throw new QuantityError(where, `depth is ${depth} m`, '0 m or more');
    return depth <= depth550 ? atSurface + steep * depth : atBend + flat * (depth - depth550);
  };
  const ageOf = (level: number) =>
    level <= atBend ? (softplus(level) - softSurface) / fast : age550 + (softplus(level) - softBend) / slow;
  const depthOf = (level: number) =>
    level <= atBend ? (level - atSurface) / steep : depth550 + (level - atBend) / flat;
  const age = (depth: Metres) => ageOf(x(depth));
  const depthOfAge = (years: Years): Metres => {
    if (!(years >= 0)) throw new QuantityError(where, `age is ${years} a`, '0 a or more');
    // softplus of the level; the level is ln(e^s - 1)
    const s = years <= age550 ? softSurface + fast * years : softBend + slow * (years - age550);
    return depthOf(s + Math.log(-Math.expm1(-s)));
  };
  return {
    k0,
    k1,
    depth550,
    age550,
    iceDensity: 1000 * ice,
    accumulation: a,
    density: (depth) => (1000 * ice) / (1 + Math.exp(-x(depth))),
    age,
    waterEquivalent: (depth) => a * age(depth),
    depthOfDensity: (density) => {
      const [least, most] = [site.surfaceDensity, 1000 * ice];
      if (!(density >= least && density < most))
        throw new QuantityError(where, `density is ${density} kg/m3`, `${least} to below ${most} kg/m3`);
      return depthOf(logit(density / 1000, ice));
    },
    depthOfAge,
    depthOfWater: (water) => depthOfAge(water / a),
    firnAir: (depth) => depth - (a * age(depth)) / ice,
  };
};

/** In what way a site lies outside of the data that the model was made from; empty where it doesn't (from memory). */
export const outsideCalibration = ({
  temperature,
  accumulation,
}: Pick<FirnSite, 'temperature' | 'accumulation'>): readonly ('colder' | 'warmer' | 'drier' | 'wetter')[] => [
  ...(temperature < 216.15 ? (['colder'] as const) : []),
  ...(temperature > 258.15 ? (['warmer'] as const) : []),
  ...(accumulation < 0.02 ? (['drier'] as const) : []),
  ...(accumulation > 0.5 ? (['wetter'] as const) : []),
];
