export { fitMidpoint, type MidpointFit, moveOut } from './common-midpoint.ts';
export { depthOfTravelTime, firnTravelTime, firnTravelTimeAll } from './firn-travel-time.ts';
export {
  type IceSpeed,
  type IceSpeedVariant,
  iceSpeed,
  iceSpeedVariants,
  speedUncertainty,
} from './ice-speed.ts';
export { firnCorrection, thickness } from './ice-thickness.ts';
export { permittivity, refractiveIndex, speedByPermittivity, speedInFirn } from './permittivity.ts';
export {
  depthInLayers,
  type LayeredTravel,
  type RadarLayers,
  travelThrough,
  travelTime,
} from './travel-time.ts';
