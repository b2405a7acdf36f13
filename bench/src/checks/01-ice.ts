import { constants } from '@firnbook/science/constants';
import {
  firnConductivity,
  heatCapacityByLine,
  iceProperties,
  latentHeatOfMelting,
  meltingPoint,
  normalPressure,
  yen1981,
} from '@firnbook/science/ice';
import { inKelvin } from '@firnbook/science/units';
import type { Inputs, Section } from './evaluator.ts';

const state = (inputs: Inputs) =>
  iceProperties(
    inputs.T_K === undefined ? inKelvin(Number(inputs.t_C)) : Number(inputs.T_K),
    Number(inputs.p_Pa),
  );
const kelvin = (inputs: Inputs) => Number(inputs.T_K);

export const section: Section = {
  section: '01_ice',
  evaluators: [
    { ids: /^(iapws06|ice)\.rho@/, compute: (inputs) => state(inputs).density },
    { ids: /^(iapws06|ice)\.cp@/, compute: (inputs) => state(inputs).heatCapacity },
    { ids: /^iapws06\.alpha@/, compute: (inputs) => state(inputs).expansion },
    { ids: /^iapws06\.kT@/, compute: (inputs) => state(inputs).isothermalCompressibility },
    {
      ids: /^cp\.greve_blatter@/,
      compute: (inputs) => heatCapacityByLine(kelvin(inputs), 'Ritz 1987'),
    },
    {
      ids: /^cp\.cuffey_paterson@/,
      compute: (inputs) => heatCapacityByLine(kelvin(inputs), 'Cuffey & Paterson 2010'),
    },
    { ids: /^k_ice@/, compute: (inputs) => yen1981(kelvin(inputs)) },
    {
      ids: /^k_snow\.sturm1997@/,
      compute: (inputs) => firnConductivity['Sturm 1997'](Number(inputs.rho)),
    },
    {
      ids: /^k_snow\.calonne2011@/,
      compute: (inputs) => firnConductivity['Calonne 2011'](Number(inputs.rho)),
    },
    {
      ids: /^k_firn\.calonne2019_noair@/,
      compute: (inputs) => firnConductivity['Calonne 2019'](Number(inputs.rho), kelvin(inputs)),
    },
    // the pressure of these two stands in the name alone: 1 atm, the triple point
    { ids: /^latent_heat_melting@/, compute: () => latentHeatOfMelting(normalPressure) },
    {
      ids: /^L_fusion@triple$/,
      compute: () => latentHeatOfMelting(constants.ice?.triplePressure?.value ?? Number.NaN),
    },
    {
      ids: /^t_melt@/,
      compute: (inputs) =>
        meltingPoint(inputs.p_abs_Pa === undefined ? normalPressure : Number(inputs.p_abs_Pa)) - inKelvin(0),
    },
  ],
  not: [],
};
