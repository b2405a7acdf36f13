import {
  cylinder,
  dampedWave,
  diffusivity,
  heislerTerm,
  lumped,
  lumpedTimeTo,
  meanKineticTemperature,
  slab,
  sphere,
  surfaceHeld,
  surfaceInAir,
  transient,
  wallConductance,
} from '@firnbook/science/heat';
import { inKelvin } from '@firnbook/science/units';
import type { Inputs, Section } from './evaluator.ts';

const numbers = (inputs: Inputs) => (name: string) => Number(inputs[name]);

const heisler = (shape: Parameters<typeof heislerTerm>[0], biot: number) => {
  const { zeta, coefficient } = heislerTerm(shape, biot);
  return [zeta, coefficient];
};

/** A bare core in air: series and lumped body. */
const warmingCore = (inputs: Inputs) => {
  const of = numbers(inputs);
  const [radius, seconds] = [of('R'), 60 * of('min')];
  const fourier = (diffusivity(of('k'), of('rho'), of('cp')) * seconds) / radius ** 2;
  const { centre, surface } = transient(cylinder, (of('h') * radius) / of('k'), fourier);
  const left = lumped({
    mass: of('rho') * Math.PI * radius ** 2,
    heatCapacity: of('cp'),
    conductance: of('h') * 2 * Math.PI * radius,
  }).left(seconds);
  const celsius = (share: number) => of('Tinf') + (of('Ti') - of('Tinf')) * share;
  return {
    Fo: fourier,
    centre_C: celsius(centre),
    surface_C: celsius(surface),
    lumped_C: celsius(left),
  };
};

const lumpedBox = (inputs: Inputs) => {
  const of = numbers(inputs);
  const conductance = wallConductance(of('A'), of('d'), of('lam'));
  const body = { mass: of('m'), heatCapacity: of('cp'), conductance };
  const time = lumpedTimeTo(body, {
    start: inKelvin(of('Ti')),
    outside: inKelvin(of('Tinf')),
    limit: inKelvin(of('Tlim')),
  });
  return {
    UA: conductance,
    tau_h: lumped(body).timeConstant / 3600,
    hours_to_limit: time === null ? null : time / 3600,
  };
};

const series = (shape: Parameters<typeof transient>[0]) => (inputs: Inputs) => {
  const { centre, surface } = transient(shape, Number(inputs.Bi), Number(inputs.Fo));
  return { centre, surface };
};

export const section: Section = {
  section: '07_cold',
  evaluators: [
    {
      ids: /^MKT\./,
      compute: (inputs) =>
        meanKineticTemperature(
          (inputs.t_C as number[]).map(inKelvin),
          inputs.w as number[] | null,
          Number(inputs.dH_kJ) / Number(inputs.R),
        ) - inKelvin(0),
    },
    {
      ids: /^alpha_ice@/,
      compute: ({ k, rho, cp }) => diffusivity(Number(k), Number(rho), Number(cp)),
    },
    {
      ids: /^semi\.surfaceT\./,
      compute: ({ x, t, alpha }) => surfaceHeld(Number(x), Number(t), Number(alpha)),
    },
    {
      ids: /^semi\.convection\./,
      compute: ({ x, t, alpha, h, k }) =>
        surfaceInAir(Number(x), Number(t), Number(alpha), Number(h), Number(k)),
    },
    {
      ids: /^damping\./,
      compute: ({ alpha, P }) => dampedWave(Number(alpha), Number(P)).dampingDepth,
    },
    {
      ids: /^heisler\./,
      compute: ({ Bi }) => ({
        slab: heisler(slab, Number(Bi)),
        cyl: heisler(cylinder, Number(Bi)),
        sphere: heisler(sphere, Number(Bi)),
      }),
    },
    { ids: /^slab\./, compute: series(slab) },
    { ids: /^cyl\./, compute: series(cylinder) },
    {
      ids: /^dirichlet\./,
      compute: ({ Fo }) => ({
        slab_centre: transient(slab, null, Number(Fo)).centre,
        cyl_centre: transient(cylinder, null, Number(Fo)).centre,
      }),
    },
    { ids: /^core\.warm\./, compute: warmingCore },
    { ids: /^box\.lumped$/, compute: lumpedBox },
  ],
  not: [],
};
