import { type Dimension, inUnit } from './unit.ts';

/** A length as a crew says it: centimetres below a metre, metres above; millimetres where there are any. */
export function sayLength(metres: number): string {
  if (Math.abs(metres) >= 1) return `${metres.toFixed(2)} m`;
  return `${Number((metres * 100).toFixed(1))} cm`;
}

/** A depth, always to the centimetre. */
export function sayDepth(metres: number): string {
  return `${metres.toFixed(2)} m`;
}

/** One standard deviation of a depth: whole centimetres, millimetres where it is less than one. */
export function saySpread(metres: number): string {
  if (metres >= 1) return sayDepth(metres);
  return metres < 0.01 ? sayLength(metres) : `${Math.round(metres * 100)} cm`;
}

/**
 * A number of any dimension in one of its units, without noughts behind it: "150 cm", "-70 °C", "15°".
 *
 * @param value in the base unit
 */
export function sayMeasure(value: number, dimension: Dimension, unit: string): string {
  const number = Number(inUnit(value, dimension, unit).toPrecision(6));
  return dimension === 'share' && unit === '1' ? `${number}` : `${number}${unit === '°' ? '' : ' '}${unit}`;
}
