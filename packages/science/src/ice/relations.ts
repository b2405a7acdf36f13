import { iceConstants } from '../constants/ice.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { firnConductivity, yen1981 } from './conductivity/index.ts';
import { iceGibbs } from './gibbs.ts';
import { heatCapacityByLine } from './heat-capacity.ts';
import { latentHeatOfMelting, meltingPoint } from './melting-point.ts';
import { iceProperties, normalPressure } from './properties.ts';
import { lengthFactor, volumeFactor } from './thermal-size.ts';

const release =
  'IAPWS R10-06(2009), Tables 2 to 4; R. Feistel and W. Wagner 2006, J. Phys. Chem. Ref. Data 35, 1021-1047, doi:10.1063/1.2183324';
const zero = 273.15;

const temperature = numberTaken(
  'T',
  'temperature of the ice',
  'Cel',
  [-273.149, 0.01],
  'IAPWS R10-06: from 0 K to the melting point',
);
const pressure = {
  ...numberTaken('p', 'absolute pressure', 'kPa', [0, 210e3], 'IAPWS R10-06'),
  usual: normalPressure / 1000,
};
const yenTemperature = {
  ...temperature,
  range: [-83.15, 0.01],
  because: 'common practice, no source',
} as const;

/** Ways to get the specific heat of ice, by name. */
const heatCapacities = {
  'IAPWS R10-06': (kelvin: number) => iceProperties(kelvin).heatCapacity,
  'Cuffey & Paterson 2010': (kelvin: number) => heatCapacityByLine(kelvin, 'Cuffey & Paterson 2010'),
  'Ritz 1987': (kelvin: number) => heatCapacityByLine(kelvin, 'Ritz 1987'),
} as const;

const keys = <T extends object>(table: T) => Object.keys(table) as (keyof T & string)[];

export const iceRelations: readonly Relation[] = [
  relation({
    name: 'ice-properties',
    title: 'Density, heat capacity, expansion and more of ice, by its Gibbs function',
    page: 'ice',
    source: release,
    takes: { temperature, pressure },
    gives: {
      density: { symbol: 'ρ', what: 'density', unit: 'kg/m3' },
      heatCapacity: { symbol: 'c_p', what: 'specific heat capacity at constant pressure', unit: 'J/kg/K' },
      expansion: { symbol: 'α', what: 'cubic expansion coefficient', unit: '1/K' },
      pressureCoefficient: {
        symbol: 'β',
        what: 'rise of pressure with temperature at constant volume',
        unit: 'Pa/K',
      },
      isothermalCompressibility: { symbol: 'κ_T', what: 'isothermal compressibility', unit: '1/Pa' },
      isentropicCompressibility: { symbol: 'κ_s', what: 'isentropic compressibility', unit: '1/Pa' },
      gibbs: { symbol: 'g', what: 'specific Gibbs energy', unit: 'J/kg' },
      enthalpy: { symbol: 'h', what: 'specific enthalpy', unit: 'J/kg' },
      helmholtz: { symbol: 'f', what: 'specific Helmholtz energy', unit: 'J/kg' },
      internalEnergy: { symbol: 'u', what: 'specific internal energy', unit: 'J/kg' },
      entropy: { symbol: 's', what: 'specific entropy (0 for water at the triple point)', unit: 'J/kg/K' },
      gp: { symbol: 'g_p', what: 'derivative of g by pressure, the specific volume', unit: 'm3/kg' },
      gT: { symbol: 'g_T', what: 'derivative of g by temperature', unit: 'J/kg/K' },
      gpp: { symbol: 'g_pp', what: 'second derivative of g by pressure', unit: 'm3/kg/Pa' },
      gTp: { symbol: 'g_Tp', what: 'mixed derivative of g', unit: 'm3/kg/K' },
      gTT: { symbol: 'g_TT', what: 'second derivative of g by temperature', unit: 'J/kg/K2' },
    },
    compute: (given) => {
      const state = [inKelvin(given.temperature), 1000 * given.pressure] as const;
      const { gp, gT, gpp, gTp, gTT } = iceGibbs(...state);
      return { ...iceProperties(...state), gp, gT, gpp, gTp, gTT };
    },
    own: (_given, { density, heatCapacity }) => ({
      density: iceConstants.densityUncertainty.value * Number(density),
      heatCapacity: iceConstants.heatCapacityUncertainty.value * Number(heatCapacity),
    }),
  }),
  relation({
    name: 'ice-melting-point',
    title: 'Melting point of ice under pressure, and the heat of melting',
    page: 'ice',
    source:
      'IAPWS R10-06(2009) and SR7-09 (equilibrium); handbooks (pure, air-saturated; from memory); Lüthi et al. 2002',
    takes: {
      pressure: { ...pressure, range: [0, 100e3], because: 'IAPWS SR7-09' },
      variant: {
        kind: 'choice',
        symbol: '',
        what: 'way to say where ice melts',
        options: ['equilibrium', 'pure', 'air-saturated', 'Luethi 2002'],
      },
    },
    gives: {
      meltingPoint: { symbol: 'T_m', what: 'melting point', unit: 'Cel' },
      latentHeat: { symbol: 'L', what: 'heat of melting (of the equilibrium)', unit: 'J/kg' },
    },
    compute: (given) => ({
      meltingPoint: meltingPoint(1000 * given.pressure, given.variant) - zero,
      latentHeat: latentHeatOfMelting(1000 * given.pressure),
    }),
    own: () => ({ latentHeat: iceConstants.heatOfMelting.sd }),
  }),
  relation({
    name: 'ice-heat-capacity',
    title: 'Specific heat of ice, by the Gibbs function or by a straight line',
    page: 'ice',
    source: 'IAPWS R10-06(2009); Cuffey & Paterson 2010, eq. (9.1); Ritz 1987 in Greve & Blatter 2009',
    takes: {
      temperature: { ...temperature, range: [-123.15, 0.01], because: 'the straight lines were made for it' },
      variant: {
        kind: 'choice',
        symbol: '',
        what: 'variant',
        options: keys(heatCapacities),
      },
    },
    gives: { heatCapacity: { symbol: 'c_p', what: 'specific heat capacity', unit: 'J/kg/K' } },
    compute: (given) => ({ heatCapacity: heatCapacities[given.variant](inKelvin(given.temperature)) }),
    own: (given, { heatCapacity }) =>
      given.variant === 'IAPWS R10-06'
        ? { heatCapacity: iceConstants.heatCapacityUncertainty.value * Number(heatCapacity) }
        : {},
  }),
  relation({
    name: 'ice-conductivity',
    title: 'Thermal conductivity of ice without bubbles',
    page: 'conductivity',
    source: 'Y.-C. Yen 1981, CRREL Report 81-10; Cuffey & Paterson 2010, eq. (9.2)',
    takes: { temperature: yenTemperature },
    gives: { conductivity: { symbol: 'k_i', what: 'thermal conductivity', unit: 'W/m/K' } },
    compute: (given) => ({ conductivity: yen1981(inKelvin(given.temperature)) }),
  }),
  relation({
    name: 'firn-conductivity',
    title: 'Thermal conductivity of snow and firn, by the name of who published it',
    page: 'conductivity',
    source:
      'Calonne et al. 2019, doi:10.1029/2019GL085228, eq. (5); Calonne et al. 2011, doi:10.1029/2011GL049234; Sturm et al. 1997, doi:10.3189/S0022143000002781; Yen 1981, Jordan 1991, Marchenko et al. 2019, Van Dusen 1929, Schwerdtfeger 1963 as quoted',
    takes: {
      density: numberTaken(
        'ρ',
        'density of the snow or firn',
        'kg/m3',
        [0, 917],
        'what the formulas can bear; each variant may take less',
      ),
      temperature: { ...yenTemperature, usual: -20 },
      variant: { kind: 'choice', symbol: '', what: 'variant', options: keys(firnConductivity) },
    },
    gives: { conductivity: { symbol: 'k', what: 'effective thermal conductivity', unit: 'W/m/K' } },
    compute: (given) => ({
      conductivity: firnConductivity[given.variant](given.density, inKelvin(given.temperature)),
    }),
  }),
  relation({
    name: 'ice-length-change',
    title: 'Length and volume of a core at another temperature',
    page: 'ice',
    source: release,
    takes: {
      length: numberTaken('L', 'length that was measured', 'm', [0, 10_000], 'deeper than any ice'),
      measuredAt: { ...temperature, symbol: 'T_1', what: 'temperature at which it was measured' },
      reducedTo: { ...temperature, symbol: 'T_2', what: 'temperature to which it is reduced' },
    },
    gives: {
      change: { symbol: 'ΔL', what: 'length to add', unit: 'mm' },
      length: { symbol: 'L_2', what: 'length at the other temperature', unit: 'm' },
      lengthFactor: { symbol: 'L_2/L_1', what: 'factor on lengths', unit: '1' },
      volumeFactor: { symbol: 'V_2/V_1', what: 'factor on volumes', unit: '1' },
    },
    compute: (given) => {
      const [from, to] = [inKelvin(given.measuredAt), inKelvin(given.reducedTo)];
      const factor = lengthFactor(from, to);
      return {
        change: 1000 * given.length * (factor - 1),
        length: given.length * factor,
        lengthFactor: factor,
        volumeFactor: volumeFactor(from, to),
      };
    },
  }),
];
