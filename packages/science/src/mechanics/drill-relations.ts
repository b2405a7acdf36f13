import { numberTaken, relation } from '../relations/relation.ts';
import { gravityAsked } from './asked.ts';
import { chipsOfRun, runThatFills } from './chips.ts';
import { coreBreakForce } from './core-break.ts';
import { hoistingPower } from './hoisting-power.ts';
import { leastReliefAngle, penetrationRate, pitch } from './penetration.ts';
import { holeTime, runTime, type TripPace } from './trip-time.ts';

const drill =
  'A drill that turns catches sleeves, gloves, hair and hands: power off and locked before anyone touches cutters or barrel. Local rules and the driller decide.';
const lifting =
  'A figure for planning, not a rating. Winch, mast, anchors and cable are rated by their makers and inspected by people trained to; nobody stands under a load or in line with a cable under tension. Local rules for lifting hold.';

const where = { bear: 'what the formula can bear', hole: 'holes that are drilled for cores' } as const;

export const penetrationRelation = relation({
  name: 'penetration',
  title: 'Speed through the ice, and least relief angle of the cutters',
  page: 'drill-mechanics',
  source: 'kinematics of a helix; handbooks of mechanics',
  takes: {
    cutters: numberTaken('n', 'number of cutters', '1', [1, 12], where.bear),
    cut: numberTaken('h', 'depth of cut of one cutter', 'mm', [0.001, 50], where.bear),
    turns: numberTaken('N', 'turns of the drill', '1/min', [0.06, 3000], where.bear),
    diameter: numberTaken(
      'd',
      'diameter of the cutters’ inner edge (the core’s)',
      'mm',
      [5, 1000],
      where.hole,
    ),
  },
  gives: {
    pitch: { symbol: 'p', what: 'advance a turn', unit: 'mm' },
    rate: { symbol: 'v', what: 'speed through the ice', unit: 'mm/min' },
    perMetre: { symbol: '1/v', what: 'time a metre', unit: 'min/m' },
    relief: { symbol: 'γ', what: 'least relief angle', unit: 'deg' },
  },
  caution: drill,
  compute: ({ cutters, cut, turns, diameter }) => {
    const perTurn = pitch(cutters, cut / 1000);
    const rate = penetrationRate(perTurn, turns / 60) * 60;
    return {
      pitch: perTurn * 1000,
      rate: rate * 1000,
      perMetre: 1 / rate,
      relief: leastReliefAngle(perTurn, diameter / 1000),
    };
  },
});

export const chipsRelation = relation({
  name: 'chips',
  title: 'Chips of a run, and the chamber that takes them',
  page: 'drill-mechanics',
  source: 'conservation of mass',
  takes: {
    hole: numberTaken('D', 'diameter of the hole', 'mm', [10, 1000], where.hole),
    core: numberTaken('d', 'diameter of the core', 'mm', [5, 1000], 'less than the hole'),
    length: numberTaken('L', 'length of the run', 'm', [0, 20], where.bear),
    density: numberTaken(
      'ρ',
      'density of the ice or firn drilled',
      'kg/m3',
      [50, 940],
      'fresh snow to ice under pressure',
    ),
    chipDensity: {
      ...numberTaken(
        'ρ_c',
        'density of the chips as they lie',
        'kg/m3',
        [50, 940],
        'no more than ice; 400 to 600 is common (from memory)',
      ),
      usual: 500,
    },
    chamber: numberTaken('V_c', 'volume of the chip chamber', 'l', [0.01, 1000], where.bear),
  },
  gives: {
    kerf: { symbol: 'A_k', what: 'area that is cut away', unit: 'cm2' },
    mass: { symbol: 'm_c', what: 'mass of chips', unit: 'kg' },
    volume: { symbol: 'V', what: 'room that they take', unit: 'l' },
    bulking: { symbol: 'ρ/ρ_c', what: 'times the room of the ice', unit: '1' },
    coreMass: { symbol: 'm', what: 'mass of the core', unit: 'kg' },
    filled: { symbol: 'V/V_c', what: 'part of the chamber that is filled', unit: '%' },
    longest: { symbol: 'L_c', what: 'length of run that fills the chamber', unit: 'm' },
  },
  caution:
    'Chips that are not in the chamber lie in the hole and can hold the drill: where less comes up than was cut, or penetration falls and current rises, the driller stops and looks. The density of the chips is the weakest number here.',
  compute: ({ hole, core, length, density, chipDensity, chamber }) => {
    const run = { hole: hole / 1000, core: core / 1000, length, density, chipDensity };
    const { kerf, mass, volume, bulking, coreMass } = chipsOfRun(run);
    return {
      kerf: kerf * 1e4,
      mass,
      volume: volume * 1000,
      bulking,
      coreMass,
      filled: (volume * 1e5) / chamber,
      longest: runThatFills(chamber / 1000, run),
    };
  },
});

const paceAsked = {
  lowering: numberTaken('v_d', 'speed of lowering', 'm/s', [0.001, 20], where.bear),
  hoisting: numberTaken('v_u', 'speed of hoisting', 'm/s', [0.001, 20], where.bear),
  rate: numberTaken('v', 'speed through the ice', 'm/min', [0.0006, 60], where.bear),
  handling: numberTaken('t_h', 'time at the surface, a run', 'min', [0, 1440], 'a day'),
} as const;
const lengthAsked = numberTaken('L', 'length of a run', 'm', [0.01, 20], where.bear);
const depthAsked = {
  kind: 'number',
  unit: 'm',
  range: [0, 5000],
  because: 'no ice sheet is thicker',
} as const;

const paceOf = (given: {
  readonly lowering: number;
  readonly hoisting: number;
  readonly rate: number;
  readonly handling: number;
}): TripPace => ({
  lowering: given.lowering,
  hoisting: given.hoisting,
  penetration: given.rate / 60,
  handling: given.handling * 60,
});

export const runTimeRelation = relation({
  name: 'run-time',
  title: 'Time of one run',
  page: 'drill-mechanics',
  source: 'times of the parts of a run added up',
  takes: {
    depth: { ...depthAsked, symbol: 'z', what: 'depth of the hole before the run' },
    length: lengthAsked,
    ...paceAsked,
  },
  gives: { time: { symbol: 't', what: 'time from surface to surface, handled', unit: 'min' } },
  compute: ({ depth, length, ...pace }) => ({ time: runTime(depth, length, paceOf(pace)) / 60 }),
});

export const holeTimeRelation = relation({
  name: 'hole-time',
  title: 'Runs and time to drill to a depth, without repairs and weather',
  page: 'drill-mechanics',
  source: 'times of all runs added up in closed form',
  takes: {
    from: { ...depthAsked, symbol: 'z_0', what: 'depth that is drilled already', usual: 0 },
    to: { ...depthAsked, symbol: 'z_1', what: 'depth to reach' },
    length: lengthAsked,
    ...paceAsked,
  },
  gives: {
    runs: { symbol: 'n', what: 'runs', unit: '1' },
    time: { symbol: 't', what: 'time of all', unit: 'h' },
  },
  compute: ({ from, to, length, ...pace }) => {
    const { runs, time } = holeTime(from, to, length, paceOf(pace));
    return { runs, time: time / 3600 };
  },
});

export const coreBreakRelation = relation({
  name: 'core-break',
  title: 'Pull that breaks a core off',
  page: 'drill-mechanics',
  source: 'strength times area; strength of ice 0.7 to 3.1 MPa: Petrovic 2003 (from memory)',
  takes: {
    diameter: numberTaken('d', 'diameter of the core', 'mm', [5, 1000], where.hole),
    strength: {
      ...numberTaken(
        'σ_t',
        'tensile strength; 1 MPa is an illustration, not a reading',
        'MPa',
        [0.001, 10],
        'snow to cold ice',
      ),
      usual: 1,
    },
  },
  gives: { force: { symbol: 'F', what: 'pull on the core', unit: 'kN' } },
  caution: lifting,
  compute: ({ diameter, strength }) => ({
    force: coreBreakForce(diameter / 1000, strength * 1e6) / 1000,
  }),
});

export const hoistingPowerRelation = relation({
  name: 'hoisting-power',
  title: 'Power to hoist at a steady speed',
  page: 'drill-mechanics',
  source: 'weight times speed over efficiency',
  takes: {
    mass: numberTaken(
      'm',
      'mass of all that hangs: drill, core, chips, cable',
      'kg',
      [0, 100_000],
      where.bear,
    ),
    speed: numberTaken('v', 'speed of hoisting', 'm/s', [0, 20], where.bear),
    efficiency: numberTaken(
      'η',
      'efficiency of motor, gear and drum together',
      '1',
      [0.01, 1],
      'by definition',
    ),
    gravity: gravityAsked,
  },
  gives: { power: { symbol: 'P', what: 'power taken up', unit: 'W' } },
  caution: lifting,
  compute: ({ mass, speed, efficiency, gravity }) => ({
    power: hoistingPower(mass, speed, efficiency, gravity),
  }),
});
