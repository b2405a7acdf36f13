export { type BoxImprovement, boxImprovement } from './box-improvement.ts';
export type { BoxedCore } from './box-model.ts';
export {
  type BoxForecast,
  type BoxWarming,
  boxForecast,
  boxWarming,
  type Weather,
} from './boxed-core.ts';
export { cylinder } from './cylinder.ts';
export { dampedWave } from './damping-depth.ts';
export { diffusivity } from './diffusivity.ts';
export { insulations } from './insulation.ts';
export { lumped, lumpedTimeTo, wallConductance } from './lumped.ts';
export { meanKineticTemperature } from './mean-kinetic-temperature.ts';
export { surfaceHeld, surfaceInAir } from './semi-infinite.ts';
export { slab } from './slab.ts';
export { sphere } from './sphere.ts';
export { heislerTerm, transient } from './transient.ts';
export { conduct } from './volumes/conduct.ts';
export { layeredGrid } from './volumes/grid.ts';
export { iceMedium, plainMedium } from './volumes/medium.ts';
