import { gasConstant, gasConstantNamed, surfaceDensity, temperature } from '../firn/quantities.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { accumulationOfLayer } from './accumulation-of-layer.ts';
import { ageAtDepth, type FlowShape, flowOf } from './age-at-depth.ts';
import type { FlowModel } from './flow-model.ts';

const sources = {
  'Nye 1963': 'Nye 1963, J. Glaciol. 4, 785 (from memory)',
  'Dansgaard & Johnsen 1969':
    'Dansgaard & Johnsen 1969, J. Glaciol. 8(53), 215-223, as a public script has it',
  'two-parameter (Bolzan 1985)':
    'Bolzan 1985, J. Geophys. Res. 90 (D5), 8111, doi:10.1029/JD090iD05p08111 (from memory)',
} as const;
type ModelName = keyof typeof sources;

const metres = (symbol: string, what: string, unit: 'm' | 'm w.e.', least = 0) =>
  ({
    kind: 'number',
    symbol,
    what: unit === 'm' ? `${what}, in metres of ice` : what,
    unit,
    range: [least, 5000],
    because: 'no ice sheet is thicker',
  }) as const;
const yearly = (symbol: string, unit: 'm/a' | 'm w.e./a') =>
  ({
    kind: 'number',
    symbol,
    what: unit === 'm/a' ? 'accumulation, in metres of ice a year' : 'accumulation',
    unit,
    range: [0.001, 10],
    because: 'what the formula can bear',
  }) as const;
const power = numberTaken(
  'p',
  'power with which layers thin; 0 is Nye',
  '1',
  [0, 20],
  'what the formula can bear',
);
const age = numberTaken('t', 'age', 'a', [0, 1e7], 'no ice core is older');
const ageGiven = { symbol: 't', what: 'age', unit: 'a' } as const;
const thinningGiven = { symbol: '', what: "share that is left of a layer's thickness", unit: '1' } as const;

const at = (model: FlowModel, depth: number) => ({
  age: model.age(depth),
  layer: model.layer(depth),
  thinning: model.thinning(depth),
});
const back = (model: FlowModel, years: number) => {
  const depth = model.depthOfAge(years);
  return { depth, layer: model.layer(depth) };
};

const ice = { thickness: metres('H', 'thickness of the ice', 'm', 1), accumulation: yearly('a', 'm/a') };
const kink = metres('h', 'height of the kink above the bed; 0 is Nye', 'm');
const water = {
  thickness: metres('H', 'thickness of the ice', 'm w.e.', 1),
  accumulation: yearly('A', 'm w.e./a'),
  p: power,
};
const iceLayer = { symbol: 'λ', what: "thickness of a year's layer, in metres of ice", unit: 'm' } as const;
const waterLayer = { symbol: 'λ', what: "a year's layer", unit: 'm w.e.' } as const;
const iceDepth = metres('d', 'depth', 'm');
const waterDepth = metres('d', 'depth', 'm w.e.');

const nyeShape: FlowShape = { model: 'Nye 1963' };

const nyeAge = relation({
  name: 'nye-age',
  title: 'Age and layer at a depth, by Nye',
  page: 'flow-ages',
  source: sources['Nye 1963'],
  takes: { depth: iceDepth, ...ice },
  gives: { age: ageGiven, layer: iceLayer, thinning: thinningGiven },
  compute: ({ depth, thickness, accumulation }) => at(flowOf(nyeShape, thickness, accumulation), depth),
});
const nyeDepth = relation({
  name: 'nye-depth',
  title: 'Depth of an age, by Nye',
  page: 'flow-ages',
  source: sources['Nye 1963'],
  takes: { age, ...ice },
  gives: { depth: { symbol: 'd', what: 'depth, in metres of ice', unit: 'm' }, layer: iceLayer },
  compute: ({ age: years, thickness, accumulation }) =>
    back(flowOf(nyeShape, thickness, accumulation), years),
});

const kinked = (thickness: number, height: number): FlowShape => ({
  model: 'Dansgaard & Johnsen 1969',
  kinkShare: height / thickness,
});
const johnsenAge = relation({
  name: 'dansgaard-johnsen-age',
  title: 'Age and layer at a depth, by Dansgaard & Johnsen',
  page: 'flow-ages',
  source: sources['Dansgaard & Johnsen 1969'],
  takes: { depth: iceDepth, ...ice, kink },
  gives: { age: ageGiven, layer: iceLayer, thinning: thinningGiven },
  compute: ({ depth, thickness, accumulation, kink: height }) =>
    at(flowOf(kinked(thickness, height), thickness, accumulation), depth),
});
const johnsenDepth = relation({
  name: 'dansgaard-johnsen-depth',
  title: 'Depth of an age, by Dansgaard & Johnsen',
  page: 'flow-ages',
  source: sources['Dansgaard & Johnsen 1969'],
  takes: { age, ...ice, kink },
  gives: { depth: { symbol: 'd', what: 'depth, in metres of ice', unit: 'm' }, layer: iceLayer },
  compute: ({ age: years, thickness, accumulation, kink: height }) =>
    back(flowOf(kinked(thickness, height), thickness, accumulation), years),
});

const bolzanAge = relation({
  name: 'two-parameter-age',
  title: 'Age and layer at a depth, by the two-parameter model',
  page: 'flow-ages',
  source: sources['two-parameter (Bolzan 1985)'],
  takes: { depth: waterDepth, ...water },
  gives: { age: ageGiven, layer: waterLayer, thinning: thinningGiven },
  compute: ({ depth, thickness, accumulation, p }) =>
    at(flowOf({ model: 'two-parameter (Bolzan 1985)', p }, thickness, accumulation), depth),
});
const bolzanDepth = relation({
  name: 'two-parameter-depth',
  title: 'Depth of an age, by the two-parameter model',
  page: 'flow-ages',
  source: sources['two-parameter (Bolzan 1985)'],
  takes: { age, ...water },
  gives: { depth: { symbol: 'd', what: 'depth', unit: 'm w.e.' }, layer: waterLayer },
  compute: ({ age: years, thickness, accumulation, p }) =>
    back(flowOf({ model: 'two-parameter (Bolzan 1985)', p }, thickness, accumulation), years),
});

const shapeTakes = {
  model: {
    kind: 'choice',
    symbol: '',
    what: 'flow model',
    options: ['Nye 1963', 'Dansgaard & Johnsen 1969', 'two-parameter (Bolzan 1985)'],
  },
  kinkShare: {
    ...numberTaken(
      'h/H',
      'height of the kink as a share of the thickness (Dansgaard & Johnsen alone; 0.2 to 0.4 are met, common practice)',
      '1',
      [0, 0.99],
      'between bed and surface',
    ),
    usual: 0.25,
  },
  p: {
    ...power,
    what: 'power with which layers thin (two-parameter alone; fit it to horizons)',
    usual: 0.8,
  },
} as const;
const shapeOf = (given: {
  readonly model: ModelName;
  readonly kinkShare: number;
  readonly p: number;
}): FlowShape => {
  switch (given.model) {
    case 'Nye 1963':
      return { model: given.model };
    case 'Dansgaard & Johnsen 1969':
      return { model: given.model, kinkShare: given.kinkShare };
    case 'two-parameter (Bolzan 1985)':
      return { model: given.model, p: given.p };
  }
};

const ageAtDepthRelation = relation({
  name: 'age-at-depth',
  title: "Age and thickness of a year's layer at this depth",
  page: 'flow-ages',
  source: `Firn: Herron & Langway 1980, doi:10.3189/S0022143000015239. Flow: ${Object.values(sources).join('; ')}`,
  takes: {
    depth: numberTaken('z', 'depth as it is in the hole', 'm', [0, 5000], 'no ice sheet is thicker'),
    thickness: numberTaken(
      'H',
      'from the surface to the bed, firn included',
      'm',
      [10, 5000],
      'no ice sheet is thicker',
    ),
    temperature,
    accumulation: yearly('A', 'm w.e./a'),
    surfaceDensity,
    ...shapeTakes,
    gasConstant,
  },
  gives: {
    age: ageGiven,
    layer: { symbol: 'λ', what: "thickness of a year's layer as it lies there", unit: 'm' },
    layerWater: waterLayer,
    density: { symbol: 'ρ', what: 'density there', unit: 'kg/m3' },
    waterDepth: { symbol: '', what: 'water equivalent above', unit: 'm w.e.' },
    iceDepth: { symbol: 'd', what: 'depth in metres of ice', unit: 'm' },
    thinning: thinningGiven,
  },
  compute: ({ depth, thickness, ...given }) => ({
    ...ageAtDepth(
      {
        temperature: inKelvin(given.temperature),
        accumulation: given.accumulation,
        surfaceDensity: given.surfaceDensity,
        gasConstant: gasConstantNamed(given.gasConstant),
      },
      shapeOf(given),
      thickness,
      depth,
    ),
  }),
});

const accumulationRelation = relation({
  name: 'accumulation-of-layer',
  title: 'Accumulation of a dated stretch, its thinning taken out',
  page: 'flow-ages',
  source: `Definition of thinning; ${Object.values(sources).join('; ')}`,
  takes: {
    top: metres('d_1', 'top of the stretch', 'm'),
    bottom: metres('d_2', 'bottom of the stretch', 'm'),
    years: { ...age, what: 'years in the stretch', range: [0.01, 1e6], because: 'what the formula can bear' },
    thickness: ice.thickness,
    ...shapeTakes,
  },
  gives: {
    accumulation: { symbol: 'a', what: 'accumulation, in metres of ice a year', unit: 'm/a' },
    thinning: { symbol: '', what: 'mean thinning of the stretch', unit: '1' },
  },
  compute: ({ top, bottom, years, thickness, ...flow }) => {
    const accumulation = accumulationOfLayer(flowOf(shapeOf(flow), thickness, 1), top, bottom, years);
    return { accumulation, thinning: (bottom - top) / years / accumulation };
  },
});

export const flowRelations: readonly Relation[] = [
  nyeAge,
  nyeDepth,
  johnsenAge,
  johnsenDepth,
  bolzanAge,
  bolzanDepth,
  ageAtDepthRelation,
  accumulationRelation,
];
