/** Branded quantities: a number that says its unit in its type. The brand exists at compile time only. */
declare const unit: unique symbol;
type Quantity<Unit extends string> = number & { readonly [unit]?: Unit };

/** Metres; a depth counts down from its hole's zero. */
export type Metres = Quantity<'m'>;
/** A pure number, for example a scale error of 0.004. */
export type Ratio = Quantity<'1'>;
/** Degrees of angle. */
export type Degrees = Quantity<'deg'>;
/** Absolute temperature. */
export type Kelvin = Quantity<'K'>;
export type Celsius = Quantity<'Cel'>;
/** Absolute pressure. */
export type Pascals = Quantity<'Pa'>;
export type Kilograms = Quantity<'kg'>;
export type SquareMetres = Quantity<'m2'>;
export type CubicMetres = Quantity<'m3'>;
export type KilogramsPerCubicMetre = Quantity<'kg/m3'>;
/** Metres of water of 1000 kg/m3: kilograms per square metre over 1000. */
export type MetresWaterEquivalent = Quantity<'m w.e.'>;
/** Metres of ice without air: as `MetresWaterEquivalent`, by the density of ice. */
export type MetresIceEquivalent = Quantity<'m i.e.'>;
/** Years of whatever length the accumulation rate counts in. */
export type Years = Quantity<'a'>;
/** Creep parameter of ice with exponent 3. */
export type GlenParameter = Quantity<'1/s/Pa3'>;
export type PerSecond = Quantity<'1/s'>;
export type Seconds = Quantity<'s'>;
export type MetresPerSecond = Quantity<'m/s'>;
export type Newtons = Quantity<'N'>;
export type Watts = Quantity<'W'>;
export type GramsPerMole = Quantity<'g/mol'>;
export type MicroequivalentsPerLitre = Quantity<'ueq/l'>;
/** Parts in a thousand, as isotope deltas are given. */
export type Permil = Quantity<'[ppth]'>;
export type SquareMetresPerSecond = Quantity<'m2/s'>;
export type WattsPerMetreKelvin = Quantity<'W/m/K'>;
export type WattsPerSquareMetreKelvin = Quantity<'W/m2/K'>;
export type JoulesPerKilogramKelvin = Quantity<'J/kg/K'>;

/** ITS-90: 0 degrees Celsius is 273.15 K. */
export const inKelvin = (temperature: Celsius): Kelvin => temperature + 273.15;
