import { cylinderDensity, iceEquivalent, layerWaterEquivalent } from '@firnbook/science/density';
import {
  degreeDayMelt,
  type MeltLayer,
  meltPercentageOfYear,
  meltShare,
  positiveDegrees,
  yearlyDegreeDays,
} from '@firnbook/science/firn';
import type { Section } from './evaluator.ts';

type Numbers = Readonly<Record<string, number>>;

export const section: Section = {
  section: '12_melt',
  evaluators: [
    {
      ids: /^melt\.pct$/,
      compute: ({ section_m, rho_bulk, layers }) => {
        let top = 0;
        // where in the section the layers lie is not given, and does not matter
        const placed = (layers as readonly (readonly [number, number])[]).map(
          ([thickness, density]): MeltLayer => {
            const layer = { top, bottom: top + thickness, density: 1000 * density };
            top = layer.bottom;
            return { ...layer, thicknessSd: 0, densitySd: 0 };
          },
        );
        const share = meltShare(
          placed,
          { from: 0, to: section_m as number },
          { value: 1000 * (rho_bulk as number), sd: 0 },
        );
        return {
          by_length: share.byLength.value,
          by_mass: share.byMass.value,
          melt_we_mm: 1000 * share.melt.value,
          total_we_mm: 1000 * share.total.value,
          rho_matrix: share.matrix === null ? null : share.matrix.value / 1000,
        };
      },
    },
    {
      ids: /^melt\.annual$/,
      compute: (inputs) => {
        const { melt_we, annual_we } = inputs as Numbers;
        return meltPercentageOfYear(melt_we!, annual_we!);
      },
    },
    {
      ids: /^density\./,
      compute: (inputs) => {
        const { m, d, L, u_m, u_d, u_L } = inputs as Numbers;
        const { density, waterEquivalent } = cylinderDensity({
          mass: m!,
          massSd: u_m!,
          diameter: d!,
          diameterSd: u_d!,
          sharedDiameterSd: 0,
          length: L!,
          lengthSd: u_L!,
          sawnOff: 0,
          sawnOffSd: 0,
          missing: 0,
          missingSd: 0,
        });
        return {
          rho: density.value,
          we_m: waterEquivalent.value,
          u_rel: density.randomSd / density.value,
          u_rho: density.randomSd,
        };
      },
    },
    {
      ids: /^cube\.we$/,
      compute: (inputs) => {
        const { rho, thickness } = inputs as Numbers;
        return layerWaterEquivalent(thickness!, rho!);
      },
    },
    {
      ids: /^ice_eq$/,
      compute: (inputs) => {
        const { we, rho_i } = inputs as Numbers;
        return iceEquivalent(we!, rho_i!);
      },
    },
    {
      ids: /^pdd\.T/,
      compute: (inputs) => {
        const { T, sigma } = inputs as Numbers;
        return positiveDegrees(T!, sigma!);
      },
    },
    {
      ids: /^pdd\.year$/,
      compute: (inputs) => {
        const { Tmean, amp, sigma } = inputs as Numbers;
        return yearlyDegreeDays(Tmean!, amp!, sigma!);
      },
    },
    {
      ids: /^melt\.pdd$/,
      compute: (inputs) => {
        const { PDD, DDF_snow, DDF_ice } = inputs as Numbers;
        return [DDF_snow!, DDF_ice!].map((factor) => 1000 * degreeDayMelt(PDD!, factor));
      },
    },
    {
      ids: /^pdd\.daily$/,
      compute: ({ T }) => (T as readonly number[]).reduce((sum, day) => sum + positiveDegrees(day, 0), 0),
    },
  ],
  not: [],
};
