import { mechanicsConstants } from '../constants/mechanics.ts';
import { numberTaken, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { gravityAsked } from './asked.ts';
import { depthByCounter, elasticStretch, thermalStretch } from './cable-stretch.ts';

const temperature = {
  kind: 'number',
  unit: 'Cel',
  range: [-90, 60],
  because: 'air and ice on Earth',
} as const;

export const cableStretchRelation = relation({
  name: 'cable-stretch',
  title: 'Stretch of the cable now, and depth by its counter',
  page: 'cable',
  source: 'Hooke’s law summed over a hanging cable, linear thermal expansion; handbooks of mechanics',
  takes: {
    counter: numberTaken('c', 'reading of the counter', 'm', [0, 10_000], 'what the formula can bear'),
    load: numberTaken(
      'm',
      'mass that hangs at the end (drill with core and chips)',
      'kg',
      [0, 10_000],
      'what the formula can bear',
    ),
    cableMass: numberTaken('μ', 'mass of a metre of cable', 'kg/m', [0, 10], 'what the formula can bear'),
    stiffness: numberTaken(
      'EA',
      'stiffness of the cable, by its maker or from a pull with a known weight',
      'kN',
      [1, 1_000_000],
      'what the formula can bear',
    ),
    top: { ...temperature, symbol: 'T_t', what: 'temperature of the cable at the surface' },
    bottom: { ...temperature, symbol: 'T_b', what: 'temperature of the cable at its lower end' },
    calibrated: { ...temperature, symbol: 'T_c', what: 'temperature that the counter was calibrated at' },
    expansion: {
      ...numberTaken('α', 'thermal expansion of the cable', '1/K', [-1e-4, 1e-4], 'metals and fibres'),
      usual: mechanicsConstants.steelExpansion.value,
    },
    slack: {
      ...numberTaken('s', 'cable that was let out and doesn’t hang', 'm', [0, 100], 'more would be seen'),
      usual: 0,
    },
    gravity: gravityAsked,
  },
  gives: {
    elastic: { symbol: 'ΔL_e', what: 'stretch by load and own weight', unit: 'mm' },
    thermal: { symbol: 'ΔL_t', what: 'by temperature, straight from top to bottom', unit: 'mm' },
    stretch: { symbol: 'ΔL', what: 'both', unit: 'mm' },
    depth: { symbol: 'z', what: 'depth: counter and stretch, less slack', unit: 'm' },
  },
  caution:
    'Lengths only; nothing here says what the cable bears. A wire rope or cable in use is judged by its maker’s working load, its log of use and a person trained to inspect it; stay clear of a loaded cable and of what hangs, and keep to the local rules for lifting.',
  compute: (given) => {
    const { counter, load, cableMass, stiffness, top, bottom, calibrated, expansion, slack, gravity } = given;
    const length = Math.max(0, counter - slack);
    const elastic = elasticStretch({
      length,
      load: load * gravity,
      weight: cableMass * gravity,
      stiffness: stiffness * 1000,
    });
    const thermal = thermalStretch(length, expansion, inKelvin((top + bottom) / 2), inKelvin(calibrated));
    return {
      elastic: 1000 * elastic,
      thermal: 1000 * thermal,
      stretch: 1000 * (elastic + thermal),
      depth: depthByCounter(counter, elastic + thermal, slack),
    };
  },
});
