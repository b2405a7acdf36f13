import { materials } from '../constants/materials.ts';
import type { JoulesPerKilogramKelvin, KilogramsPerCubicMetre, WattsPerMetreKelvin } from '../units.ts';

/** What the wall of a box is made of. */
export interface Insulation {
  readonly conductivity: WattsPerMetreKelvin;
  readonly density: KilogramsPerCubicMetre;
  readonly heatCapacity: JoulesPerKilogramKelvin;
}

const polystyrene = materials.polystyreneHeat.value;
const urethane = {
  density: materials.purDensity.value,
  heatCapacity: materials.purHeat.value,
} as const;
const vacuum = {
  density: materials.vacuumDensity.value,
  heatCapacity: materials.vacuumHeat.value,
} as const;

/** Insulation by name; sources in constants/materials.ts. */
export const insulations = {
  'EPS, 15 kg/m3': {
    conductivity: materials.eps15Conductivity.value,
    density: materials.eps15Density.value,
    heatCapacity: polystyrene,
  },
  'EPS, 30 kg/m3': {
    conductivity: materials.eps30Conductivity.value,
    density: materials.eps30Density.value,
    heatCapacity: polystyrene,
  },
  XPS: {
    conductivity: materials.xpsConductivity.value,
    density: materials.xpsDensity.value,
    heatCapacity: polystyrene,
  },
  'PUR, new': { conductivity: materials.purConductivity.value, ...urethane },
  'PUR, aged': { conductivity: materials.purAgedConductivity.value, ...urethane },
  'phenolic foam': {
    conductivity: materials.phenolicConductivity.value,
    density: materials.phenolicDensity.value,
    heatCapacity: materials.phenolicHeat.value,
  },
  'vacuum panel, new': { conductivity: materials.vacuumNewConductivity.value, ...vacuum },
  'vacuum panel, vacuum lost': { conductivity: materials.vacuumAgedConductivity.value, ...vacuum },
} as const satisfies Readonly<Record<string, Insulation>>;
