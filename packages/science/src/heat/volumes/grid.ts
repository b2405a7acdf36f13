import { mustLie, QuantityError } from '../../quantity-error.ts';
import type { Metres, Ratio, SquareMetres } from '../../units.ts';
import type { Shape } from '../shape.ts';
import type { Medium } from './medium.ts';

/** One layer, from inside to outside. */
export interface Layer {
  readonly thickness: Metres;
  readonly medium: Medium;
  /** How many volumes it is cut into. */
  readonly cells: number;
  /** Resistance of the gap on its outer side, m2 K/W; none without. */
  readonly contact?: number;
  /** How much more area it has than the shape says: a box has edges and ends. */
  readonly area?: Ratio;
}

/** Volumes of a slab (a square metre of it), a cylinder (a metre of it) or a sphere. */
export interface Grid {
  /** Innermost first. */
  readonly media: readonly Medium[];
  /** Distance of the volumes' middles from the centre. */
  readonly places: Float64Array;
  readonly volumes: Float64Array;
  /** From a volume's middle to its inner and outer face: times 1/k gives K/W. */
  readonly inward: Float64Array;
  readonly outward: Float64Array;
  /** Of the gap at the outer face, K/W. */
  readonly gaps: Float64Array;
  /** Index of each layer's last volume. */
  readonly ends: readonly number[];
  readonly surface: SquareMetres;
}

const areaAt = {
  slab: () => 1,
  cylinder: (r: number) => 2 * Math.PI * r,
  sphere: (r: number) => 4 * Math.PI * r * r,
};
const volumeTo = {
  slab: (r: number) => r,
  cylinder: (r: number) => Math.PI * r * r,
  sphere: (r: number) => (4 / 3) * Math.PI * r ** 3,
};
/** Resistance of a shell times its conductivity. */
const between = {
  slab: (r: number, s: number) => s - r,
  cylinder: (r: number, s: number) => Math.log(s / r) / (2 * Math.PI),
  sphere: (r: number, s: number) => (1 / r - 1 / s) / (4 * Math.PI),
};

/**
 * Cuts layers into volumes of equal thickness within a layer. The middle (of a slab: its plane of symmetry, or an
 * insulated face) lets no heat through.
 *
 * @throws QuantityError for no layer, a thickness or an area not above 0, cells that are no whole number from 1
 */
export const layeredGrid = (shape: Shape['name'], layers: readonly Layer[]): Grid => {
  if (layers.length === 0) throw new QuantityError('body', 'it has no layer', '1 layer or more');
  const media: Medium[] = [];
  const rows: { place: number; volume: number; inward: number; outward: number; gap: number }[] = [];
  const ends: number[] = [];
  let inner = 0;
  let surface = 0;
  for (const [i, { thickness, medium, cells, contact = 0, area = 1 }] of layers.entries()) {
    const where = `layer ${i + 1}`;
    mustLie(where, 'thickness', thickness, 1e-6, 1e4, 'm');
    mustLie(where, 'contact resistance', contact, 0, 1e6, 'm2 K/W');
    mustLie(where, 'factor on area', area, 0.01, 100, '');
    mustLie(where, 'number of volumes', cells, 1, 1e5, '');
    if (!Number.isInteger(cells))
      throw new QuantityError(where, `number of volumes is ${cells}`, 'a whole number');
    for (let cell = 0; cell < cells; cell++) {
      const from = inner + (thickness * cell) / cells;
      const to = inner + (thickness * (cell + 1)) / cells;
      const place = (from + to) / 2;
      media.push(medium);
      rows.push({
        place,
        volume: area * (volumeTo[shape](to) - volumeTo[shape](from)),
        // nothing goes through the middle, so its resistance is never asked for
        inward: from === 0 ? 0 : between[shape](from, place) / area,
        outward: between[shape](place, to) / area,
        gap: cell === cells - 1 ? contact / (area * areaAt[shape](to)) : 0,
      });
    }
    inner += thickness;
    surface = area * areaAt[shape](inner);
    ends.push(rows.length - 1);
  }
  const column = (of: (row: (typeof rows)[number]) => number) => Float64Array.from(rows, of);
  return {
    media,
    places: column((row) => row.place),
    volumes: column((row) => row.volume),
    inward: column((row) => row.inward),
    outward: column((row) => row.outward),
    gaps: column((row) => row.gap),
    ends,
    surface,
  };
};
