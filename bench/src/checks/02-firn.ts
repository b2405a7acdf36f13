import { closeOffDensity, herronLangway } from '@firnbook/science/firn';
import type { Inputs, Section } from './evaluator.ts';

const depths = [5, 10, 20, 40, 60, 80] as const;

/** The sheet counts density in Mg/m3. */
const herronLangwayCase = ({ T_K, A_mwe, rho0, rhoi, R }: Inputs) => {
  const column = herronLangway({
    temperature: T_K as number,
    accumulation: A_mwe as number,
    surfaceDensity: 1000 * (rho0 as number),
    iceDensity: 1000 * (rhoi as number),
    gasConstant: R as number,
  });
  const at = (of: (depth: number) => number) =>
    Object.fromEntries(depths.map((depth) => [String(depth), of(depth)]));
  const depth830 = column.depthOfDensity(830);
  return {
    k0: column.k0,
    k1: column.k1,
    h_550: column.depth550,
    t_550: column.age550,
    h_830: depth830,
    t_830: column.age(depth830),
    rho: at((depth) => column.density(depth) / 1000),
    age: at(column.age),
    we: at(column.waterEquivalent),
  };
};

export const section: Section = {
  section: '02_firn',
  evaluators: [
    { ids: /^HL80\./, compute: herronLangwayCase },
    {
      ids: /^rho_closeoff\.martinerie1994@/,
      compute: ({ T_K, rhoi }) => closeOffDensity(T_K as number, 'Martinerie 1994', 1000 * (rhoi as number)),
    },
  ],
  not: [],
};
