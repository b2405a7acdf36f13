import { heatCapacityByLine } from '../ice/heat-capacity.ts';
import { mustLie } from '../quantity-error.ts';
import type {
  Kelvin,
  Kilograms,
  KilogramsPerCubicMetre,
  Metres,
  Ratio,
  Seconds,
  SquareMetres,
  WattsPerSquareMetreKelvin,
} from '../units.ts';
import type { Insulation } from './insulation.ts';
import type { LumpedBody } from './lumped.ts';
import { type Grid, type Layer, layeredGrid } from './volumes/grid.ts';
import { type FirnConductivity, iceMedium, type Medium, plainMedium } from './volumes/medium.ts';

/** A box of core: pieces side by side, packing snow around them, a wall, air. */
export interface BoxedCore {
  /** Mass of all the ice in it. */
  readonly ice: Kilograms;
  /** Of the ice or firn, 917 kg/m3 at most. */
  readonly density: KilogramsPerCubicMetre;
  /** Inside of the box, along the core. */
  readonly length: Metres;
  /** Null without packing. */
  readonly snow: { readonly thickness: Metres; readonly density: KilogramsPerCubicMetre } | null;
  /** Null without a wall: core in the open. */
  readonly wall: (Insulation & { readonly thickness: Metres }) | null;
  /** Heat transfer coefficient at its outside, film and radiation together. */
  readonly film: WattsPerSquareMetreKelvin;
  /** Outside of the box; where not known, that of a round box with two ends (in the open: without ends). */
  readonly area?: SquareMetres;
  /** By whom snow and ice conduct; Calonne 2019. */
  readonly conductivity?: FirnConductivity;
}

export interface BoxModel {
  /** A metre of it. */
  readonly grid: Grid;
  /** Layer that lies against the wall: packing, or ice where there is none. */
  readonly edge: number;
  /** Film and sun as the grid's surface must see them where there is no wall to multiply. */
  readonly filmFactor: Ratio;
  /** Radius of its outside. */
  readonly outer: Metres;
  readonly snow: Kilograms;
  readonly area: SquareMetres;
  /** Everything inside and the wall as one body, with heat capacities as at that temperature. */
  readonly lumpedAt: (temperature: Kelvin) => LumpedBody;
  /** In about this time differences inside even out. */
  readonly evening: Seconds;
}

/** Volumes per layer: four times as many change a result by less than 0.5 %. */
const cells = { ice: 16, snow: 12, wall: 8 } as const;

/**
 * A box as a cylinder: all ice as one round bundle of its mass, packing around it, wall around that. So the outside of
 * the bundle stands for the pieces that lie outermost. A real box has corners and ends: its wall is counted as many times
 * as its outside is larger than that of the round model, in what it conducts, holds, and takes from air and sun.
 *
 * @throws QuantityError for a size, mass or coefficient out of range
 */
export const boxModel = (box: BoxedCore): BoxModel => {
  const where = 'box of core';
  const { wall, snow } = box;
  mustLie(where, 'mass of ice', box.ice, 0.01, 1e5, 'kg');
  mustLie(where, 'length', box.length, 0.05, 50, 'm');
  mustLie(where, 'heat transfer coefficient', box.film, 0.1, 1000, 'W/m2/K');
  const variant = box.conductivity ?? 'Calonne 2019';
  const medium = iceMedium(box.density, variant);
  const bundle = Math.sqrt(box.ice / (box.density * box.length * Math.PI));
  const layers: Layer[] = [{ thickness: bundle, medium, cells: cells.ice }];
  let evening = eveningTime(medium, bundle);
  let snowMass = 0;
  if (snow !== null) {
    mustLie(where, 'thickness of the packing', snow.thickness, 1e-3, 5, 'm');
    const packing = iceMedium(snow.density, variant);
    layers.push({ thickness: snow.thickness, medium: packing, cells: cells.snow });
    snowMass = snow.density * Math.PI * snow.thickness * (2 * bundle + snow.thickness) * box.length;
    evening += eveningTime(packing, snow.thickness);
  }
  const edge = layers.length - 1;
  const inner = bundle + (snow?.thickness ?? 0);
  if (wall !== null) mustLie(where, 'thickness of the wall', wall.thickness, 1e-4, 5, 'm');
  const outer = inner + (wall?.thickness ?? 0);
  const round = 2 * Math.PI * outer * box.length;
  const area = box.area ?? (wall === null ? round : round + 2 * Math.PI * outer * outer);
  mustLie(where, 'outer area', area, 0.3 * round, 100 * round, 'm2');
  const more = area / round;
  let resistance = 1 / (box.film * area);
  let wallHeat = 0;
  if (wall !== null) {
    const plain = plainMedium(wall.conductivity, wall.density, wall.heatCapacity);
    layers.push({ thickness: wall.thickness, medium: plain, cells: cells.wall, area: more });
    resistance += Math.log(outer / inner) / (2 * Math.PI * box.length * more * wall.conductivity);
    const volume = more * Math.PI * (outer * outer - inner * inner) * box.length;
    wallHeat = volume * wall.density * wall.heatCapacity;
  }
  return {
    grid: layeredGrid('cylinder', layers),
    edge,
    outer,
    filmFactor: wall === null ? more : 1,
    snow: snowMass,
    area,
    lumpedAt: (temperature) => {
      const mass = box.ice + snowMass;
      const own = heatCapacityByLine(temperature, 'Cuffey & Paterson 2010');
      return { mass, heatCapacity: own + wallHeat / mass, conductance: 1 / resistance };
    },
    evening,
  };
};

/** Size squared over diffusivity, over 3: near enough to choose steps by. */
const eveningTime = (medium: Medium, size: Metres): Seconds => {
  const capacity = medium.heatContent(263.15) - medium.heatContent(262.15);
  return (size * size * capacity) / (3 * medium.conductivity(263.15));
};
