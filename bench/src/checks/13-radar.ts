import { herronLangway } from '@firnbook/science/firn';
import {
  firnCorrection,
  firnTravelTime,
  iceSpeed,
  moveOut,
  permittivity,
  refractiveIndex,
  speedByPermittivity,
  speedInFirn,
  thickness,
  travelThrough,
} from '@firnbook/science/radar';
import type { Inputs, Section } from './evaluator.ts';

const numbers = (inputs: Inputs) => inputs as Record<string, number>;

export const section: Section = {
  section: '13_radar',
  evaluators: [
    {
      ids: /^kovacs\./,
      compute: (inputs) => {
        const density = 1000 * numbers(inputs).rho_g_cm3;
        return {
          eps: permittivity(density),
          n: refractiveIndex(density),
          v_m_per_us: speedInFirn(density) / 1e6,
        };
      },
    },
    {
      ids: /^robin1975\./,
      compute: () => {
        const { value, sd } = iceSpeed('Robin 1975');
        return [value / 1e6, sd === null ? null : sd / 1e6];
      },
    },
    { ids: /^v\.eps/, compute: (inputs) => speedByPermittivity(numbers(inputs).eps) / 1e6 },
    {
      ids: /^twt\.layers$/,
      compute: ({ layers }) => {
        const all = layers as readonly (readonly [number, number])[];
        const { depth, water, time, meanSpeed } = travelThrough({
          thicknesses: all.map(([thick]) => thick),
          densities: all.map(([, density]) => 1000 * density),
        });
        const usual = iceSpeed('168 m/us').value;
        return {
          D_m: depth,
          W_mwe: water,
          twt_ns: 1e9 * time,
          mean_v: meanSpeed / 1e6,
          depth_if_168: thickness(time, usual, 0),
          firn_correction_m: firnCorrection(depth, time, usual),
        };
      },
    },
    {
      ids: /^twt\.HL\./,
      compute: (inputs) => {
        const { T_K, A, rho0, h } = numbers(inputs);
        const column = herronLangway({
          temperature: T_K,
          accumulation: A,
          surfaceDensity: 1000 * rho0,
        });
        return 1e9 * firnTravelTime(column, h);
      },
    },
    {
      ids: /^twt\.ice$/,
      compute: (inputs) => {
        const { twt_us, v, firn_corr } = numbers(inputs);
        return thickness(twt_us * 1e-6, v * 1e6, firn_corr);
      },
    },
    {
      ids: /^cmp\./,
      compute: (inputs) => {
        const { d, v, x } = numbers(inputs);
        return 1e9 * moveOut(d, v, x);
      },
    },
  ],
  not: [],
};
