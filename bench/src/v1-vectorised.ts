/**
 * V1: the science room's forms for whole series, 10,000 depths in one call, beside NumPy on the same formulas in the same
 * run (Debian's python3-numpy). Says too how time grows with length, and what one call leaves on the heap.
 */
import { spawnSync } from 'node:child_process';
import { deuteriumExcessAll, nonSeaSaltAll } from '@firnbook/science/chemistry';
import { dansgaardJohnsen, flowAgeAll, flowLayerAll, nye, twoParameter } from '@firnbook/science/dating';
import { firnAgeAll, firnDensityAll, firnWaterAll, herronLangway } from '@firnbook/science/firn';
import { iceDensityAll } from '@firnbook/science/ice';
import { closureRateAll, creepParameterAll } from '@firnbook/science/mechanics';
import { firnTravelTimeAll } from '@firnbook/science/radar';

const PYTHON = '/usr/bin/python3';
const COUNT = 10_000;
const REPEATS = 200;

const firn = herronLangway({ temperature: 253.15, accumulation: 0.5, surfaceDensity: 360 });
const flow = { thickness: 500, accumulation: 0.4 };
const models = [
  nye(flow),
  dansgaardJohnsen({ ...flow, kink: 125 }),
  twoParameter({ ...flow, p: 0.8 }),
] as const;

const series = (count: number, from: number, to: number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

/** Each by the name that the peer knows it by; the arrays are made once, outside the clock. */
const forms = (count: number): Readonly<Record<string, () => void>> => {
  const out = new Float64Array(count);
  const depths = series(count, 0, 120);
  const deep = series(count, 0, 490);
  const kelvins = series(count, 223.5, 273);
  const pascals = series(count, 0, 5e6);
  const parameters = series(count, 1e-26, 2e-24);
  const [ion, tracer] = [series(count, 5, 90), series(count, 1, 40)];
  return {
    firnDensity: () => firnDensityAll(firn, depths, out),
    firnAge: () => firnAgeAll(firn, depths, out),
    firnWater: () => firnWaterAll(firn, depths, out),
    nyeAge: () => flowAgeAll(models[0], deep, out),
    dansgaardJohnsenAge: () => flowAgeAll(models[1], deep, out),
    dansgaardJohnsenLayer: () => flowLayerAll(models[1], deep, out),
    twoParameterAge: () => flowAgeAll(models[2], deep, out),
    iceDensity: () => iceDensityAll(kelvins, out),
    creepByEquation: () => creepParameterAll(kelvins, 'Cuffey & Paterson 2010, equation', pascals, out),
    closureRate: () => closureRateAll(parameters, pascals, out),
    firnTravelTime: () => firnTravelTimeAll(firn, depths, out),
    nonSeaSalt: () => nonSeaSaltAll(ion, tracer, 0.251576, out),
    deuteriumExcess: () => deuteriumExcessAll(ion, tracer, out),
  };
};

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

const timed = (work: () => void, repeats: number): number => {
  for (let i = 0; i < 20; i += 1) work();
  return median(
    Array.from({ length: repeats }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    }),
  );
};

const ours = Object.fromEntries(
  Object.entries(forms(COUNT)).map(([name, work]) => [name, timed(work, REPEATS)]),
);
const tenTimes = Object.fromEntries(
  Object.entries(forms(10 * COUNT)).map(([name, work]) => [name, timed(work, 20)]),
);

/** Bytes that one call of all forms leaves behind, where the collector can be asked (node --expose-gc). */
const heapPerElement = (): number | null => {
  const collect = (globalThis as { readonly gc?: () => void }).gc;
  if (collect === undefined) return null;
  const all = Object.values(forms(COUNT));
  for (const work of all) work();
  collect();
  const before = process.memoryUsage().heapUsed;
  for (const work of all) work();
  return (process.memoryUsage().heapUsed - before) / (COUNT * all.length);
};

const script = new URL('./v1_peer.py', import.meta.url).pathname;
const environment = { ...process.env };
delete environment.OPENBLAS_CORETYPE;
delete environment.OPENBLAS_L2_SIZE;
const ran = spawnSync(PYTHON, [script, String(COUNT), String(REPEATS)], {
  encoding: 'utf8',
  env: environment,
});
const peer = ran.status === 0 ? (JSON.parse(ran.stdout) as Readonly<Record<string, number>>) : null;

const round = (value: number): number => Number(value.toPrecision(3));
console.log(
  JSON.stringify({
    id: 'V1',
    what: `series of ${COUNT} in one call, median of ${REPEATS}`,
    peer:
      peer === null
        ? (ran.error?.message ?? ran.stderr.trim().split('\n').at(-1))
        : 'NumPy, same formulas, same run',
    forms: Object.fromEntries(
      Object.entries(ours).map(([name, ms]) => [
        name,
        {
          ms: round(ms),
          numpy_ms: peer === null ? null : round(peer[name] ?? Number.NaN),
          ratio: peer === null ? null : round((peer[name] ?? Number.NaN) / ms),
          ten_times_longer: round((tenTimes[name] ?? Number.NaN) / ms),
        },
      ]),
    ),
    heap_bytes_per_element: heapPerElement(),
  }),
);
