import { constants } from '@firnbook/science/constants';
import {
  chipsOfRun,
  coreBreakForce,
  elasticStretch,
  hoistingPower,
  holeTime,
  leastReliefAngle,
  penetrationRate,
  thermalStretch,
} from '@firnbook/science/mechanics';
import { inKelvin } from '@firnbook/science/units';
import type { Inputs, Section } from './evaluator.ts';

const numbers = (inputs: Inputs) => inputs as Record<string, number>;

export const section: Section = {
  section: '06_drill',
  evaluators: [
    {
      ids: /^cable\.L/,
      compute: (inputs) => {
        const { L_m, EA_N, mass_per_m, load_kg, g } = numbers(inputs);
        return (
          1000 * elasticStretch({ length: L_m, load: load_kg * g, weight: mass_per_m * g, stiffness: EA_N })
        );
      },
    },
    {
      ids: /^cable\.thermal$/,
      compute: (inputs) => {
        const { L_m, alpha, dT } = numbers(inputs);
        return 1000 * thermalStretch(L_m, alpha, inKelvin(dT), inKelvin(0));
      },
    },
    {
      ids: /^cable\.thermal\.profile$/,
      compute: (inputs) => {
        const { L_m, alpha, T_cal, T_surface, T_bottom } = numbers(inputs);
        const mean = inKelvin((T_surface + T_bottom) / 2);
        return 1000 * thermalStretch(L_m, alpha, mean, inKelvin(T_cal));
      },
    },
    {
      ids: /^penetration\./,
      compute: (inputs) => {
        const { pitch_mm_per_rev, rpm } = numbers(inputs);
        const perMinute = 60 * penetrationRate(pitch_mm_per_rev / 1000, rpm / 60);
        return [1000 * perMinute, 1 / perMinute];
      },
    },
    {
      ids: /^helix\./,
      compute: (inputs) => {
        const { pitch_mm, diameter_mm } = numbers(inputs);
        return leastReliefAngle(pitch_mm / 1000, diameter_mm / 1000);
      },
    },
    {
      ids: /^chips\./,
      compute: (inputs) => {
        const { D_hole, d_core, L, rho, rho_chips } = numbers(inputs);
        const chips = chipsOfRun({
          hole: D_hole,
          core: d_core,
          length: L,
          density: rho,
          chipDensity: rho_chips,
        });
        return {
          kerf_m2: chips.kerf,
          mass_kg: chips.mass,
          loose_volume_L: 1000 * chips.volume,
          bulking: chips.bulking,
          core_mass_kg: chips.coreMass,
        };
      },
    },
    {
      ids: /^trip\./,
      compute: (inputs) => {
        const { zmax, run_m, v_down, v_up, rate_m_min, handling_min } = numbers(inputs);
        const { runs, time } = holeTime(0, zmax, run_m, {
          lowering: v_down,
          hoisting: v_up,
          penetration: rate_m_min / 60,
          handling: 60 * handling_min,
        });
        return [runs, time / 3600];
      },
    },
    {
      ids: /^core_break$/,
      compute: (inputs) => {
        const { d, sigma_t_MPa } = numbers(inputs);
        return coreBreakForce(d, 1e6 * sigma_t_MPa);
      },
    },
    {
      ids: /^hoist_power$/,
      compute: (inputs) => {
        const { mass, v, eff } = numbers(inputs);
        return hoistingPower(mass, v, eff, constants.universal!.standardGravity!.value);
      },
    },
  ],
  not: [],
};
