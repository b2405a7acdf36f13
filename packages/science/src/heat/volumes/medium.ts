import { iceConstants } from '../../constants/ice.ts';
import { firnConductivity } from '../../ice/conductivity/index.ts';
import { mustLie } from '../../quantity-error.ts';
import type {
  JoulesPerKilogramKelvin,
  Kelvin,
  KilogramsPerCubicMetre,
  Ratio,
  WattsPerMetreKelvin,
} from '../../units.ts';

/**
 * What a layer is made of, as the solver sees it. Heat content is counted per volume from the frozen state at 0 degrees
 * Celsius: the one number that is conserved, and that says how much is melted where the temperature no longer does.
 */
export interface Medium {
  readonly conductivity: (temperature: Kelvin) => WattsPerMetreKelvin;
  /** J/m3 */
  readonly heatContent: (temperature: Kelvin) => number;
  readonly temperature: (heatContent: number) => Kelvin;
  /** Of `temperature`, K m3/J; 0 while it melts. */
  readonly slope: (heatContent: number) => number;
  readonly melted: (heatContent: number) => Ratio;
}

const melting: Kelvin = 273.15;
/** Conductivities of ice are not known below; colder ice counts as this cold. */
const coldest: Kelvin = 190;

/**
 * A material whose properties do not change and that does not melt: foam, wood, plastic.
 *
 * @throws QuantityError for what is not above 0
 */
export const plainMedium = (
  conductivity: WattsPerMetreKelvin,
  density: KilogramsPerCubicMetre,
  heatCapacity: JoulesPerKilogramKelvin,
): Medium => {
  mustLie('material', 'conductivity', conductivity, 1e-4, 1e4, 'W/m/K');
  mustLie('material', 'density', density, 0.1, 3e4, 'kg/m3');
  mustLie('material', 'heat capacity', heatCapacity, 1, 1e5, 'J/kg/K');
  const capacity = density * heatCapacity;
  return {
    conductivity: () => conductivity,
    heatContent: (temperature) => capacity * (temperature - melting),
    temperature: (heatContent) => melting + heatContent / capacity,
    slope: () => 1 / capacity,
    melted: () => 0,
  };
};

export type FirnConductivity = keyof typeof firnConductivity;

const a = iceConstants.heatCapacityCuffey.value;
const b = iceConstants.heatCapacitySlopeCuffey.value;
const heatOfMelting = iceConstants.heatOfMelting.value;
const water = iceConstants.waterHeatCapacity.value;
const below = a * melting + (b * melting * melting) / 2;

/**
 * Snow, firn or ice: conductivity by one of the published variants at its own temperature, heat capacity by the line of
 * Cuffey & Paterson 2010 (within 0.3 % of IAPWS R10-06, and its heat content can be turned round in closed form). At
 * 0 degrees Celsius it takes up the heat of melting and gets no warmer until all of it is melted; the water stays where
 * it is.
 *
 * @param density 50 to 917 kg/m3, or less as the variant says
 * @throws QuantityError outside
 */
export const iceMedium = (
  density: KilogramsPerCubicMetre,
  variant: FirnConductivity = 'Calonne 2019',
): Medium => {
  mustLie('snow, firn or ice', 'density', density, 50, 917, 'kg/m3');
  const conductivity = firnConductivity[variant];
  const melt = density * heatOfMelting;
  const temperature = (heatContent: number): Kelvin => {
    if (heatContent < 0) return (Math.sqrt(a * a + 2 * b * (heatContent / density + below)) - a) / b;
    return heatContent <= melt ? melting : melting + (heatContent - melt) / (density * water);
  };
  return {
    conductivity: (at) => conductivity(density, Math.min(Math.max(at, coldest), melting)),
    heatContent: (at) =>
      at <= melting
        ? density * (a * at + (b * at * at) / 2 - below)
        : melt + density * water * (at - melting),
    temperature,
    slope: (heatContent) => {
      if (heatContent < 0) return 1 / (density * (a + b * temperature(heatContent)));
      return heatContent <= melt ? 0 : 1 / (density * water);
    },
    melted: (heatContent) => Math.min(Math.max(heatContent / melt, 0), 1),
  };
};
