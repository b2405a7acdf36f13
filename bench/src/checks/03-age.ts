import {
  countedAge,
  dansgaardJohnsen,
  type FlowModel,
  nye,
  twoParameter,
  yearByEpoch,
} from '@firnbook/science/dating';
import type { Section } from './evaluator.ts';

type Numbers = Readonly<Record<string, number>>;

const ageAndLayer = (model: FlowModel, depth: number) => [model.age(depth), model.layer(depth)];

export const section: Section = {
  section: '03_age',
  evaluators: [
    {
      ids: /^nye\./,
      compute: (inputs) => {
        const { H, a, z_above_bed: z } = inputs as Numbers;
        return ageAndLayer(nye({ thickness: H!, accumulation: a! }), H! - z!);
      },
    },
    {
      ids: /^dj\./,
      compute: (inputs) => {
        const { H, a, h, z_above_bed: z } = inputs as Numbers;
        return ageAndLayer(dansgaardJohnsen({ thickness: H!, accumulation: a!, kink: h! }), H! - z!);
      },
    },
    {
      ids: /^bolzan\./,
      compute: (inputs) => {
        const { H_mwe, b, p, depth_mwe } = inputs as Numbers;
        return ageAndLayer(twoParameter({ thickness: H_mwe!, accumulation: b!, p: p! }), depth_mwe!);
      },
    },
    {
      ids: /^layercount\./,
      compute: (inputs) => {
        const { certain, uncertain } = inputs as Numbers;
        const { age, mce, sd } = countedAge(certain!, uncertain!, 'half the MCE');
        const independent = countedAge(certain!, uncertain!, 'independent layers').sd;
        return { age, MCE: mce, one_sigma: sd, binomial_sigma: independent };
      },
    },
    {
      ids: /^epoch\./,
      compute: (inputs) => {
        const { year_CE, year_BCE } = inputs as Numbers;
        const { astronomical, BP, b2k } =
          year_BCE === undefined ? yearByEpoch(year_CE!, 'CE') : yearByEpoch(year_BCE, 'BCE');
        return { astronomical, BP, b2k };
      },
    },
  ],
  not: [],
};
