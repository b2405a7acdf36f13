import { diskArea, ringArea } from '../geometry/circle.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type {
  CubicMetres,
  Kilograms,
  KilogramsPerCubicMetre,
  Metres,
  Ratio,
  SquareMetres,
} from '../units.ts';

/** One run as the chips see it. */
export interface CutRun {
  readonly hole: Metres;
  readonly core: Metres;
  readonly length: Metres;
  /** Of the ice that is drilled, 50 to 940 kg/m3. */
  readonly density: KilogramsPerCubicMetre;
  /** Of the chips as they lie in the chamber, 50 to that of the ice, kg/m3. */
  readonly chipDensity: KilogramsPerCubicMetre;
}

export interface Chips {
  /** Ring that is cut away. */
  readonly kerf: SquareMetres;
  readonly mass: Kilograms;
  /** As the chips lie. */
  readonly volume: CubicMetres;
  /** How many times more room they take than as ice. */
  readonly bulking: Ratio;
  readonly coreMass: Kilograms;
}

const where = 'chips of a run';

/**
 * Chips of a run: pi/4 (D^2 - d^2) L of ice, whose mass lies in the chamber at the chips' density.
 *
 * Source: conservation of mass. Published chips take 1.7 to 2.3 times the room of ice, 400 to 600 kg/m3 (from memory).
 *
 * @throws QuantityError for a core that is not thinner than the hole, a length outside 0 to 20 m, densities outside of
 *   their ranges
 */
export const chipsOfRun = ({ hole, core, length, density, chipDensity }: CutRun): Chips => {
  mustLie(where, 'length of the run', length, 0, 20, 'm');
  mustLie(where, 'density of the ice', density, 50, 940, 'kg/m3');
  mustLie(where, 'density of the chips', chipDensity, 50, 940, 'kg/m3');
  const kerf = ringArea(hole, core);
  const mass = kerf * length * density;
  return {
    kerf,
    mass,
    volume: mass / chipDensity,
    bulking: density / chipDensity,
    coreMass: diskArea(core) * length * density,
  };
};

/**
 * Length of run whose chips fill a chamber.
 *
 * @param chamber its volume, above 0 to 1 m3
 * @throws QuantityError as above
 */
export const runThatFills = (chamber: CubicMetres, run: Omit<CutRun, 'length'>): Metres => {
  if (!(chamber > 0 && chamber <= 1))
    throw new QuantityError(where, `volume of the chamber is ${chamber} m3`, 'above 0 to 1 m3');
  return chamber / chipsOfRun({ ...run, length: 1 }).volume;
};
