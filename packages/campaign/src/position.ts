/** A place on the ground, in decimal degrees of WGS 84. */
export interface Position {
  /** North of the equator; south is negative. */
  readonly latitude: number;
  /** East of the zero meridian; west is negative. */
  readonly longitude: number;
}

const DEGREES = /^[+-]?\d{1,3}(?:[.,]\d{1,12})?\u00b0?$/;

/**
 * Latitude, then longitude, as ISO 6709 orders them: "-77.8500, 38.0100", apart by a comma or semicolon with or
 * without white space, or by white space. A comma may be the decimal sign where something else stands between the
 * two. Null for anything else, and for degrees that no place has.
 *
 * @param text without white space but single spaces inside
 */
export function readPosition(text: string): Position | null {
  const parts = partsOf(text.replace(/\u2212/g, '-'));
  if (parts === null || !parts.every((part) => DEGREES.test(part))) return null;
  const [latitude, longitude] = parts.map((part) => Number(part.replace(',', '.').replace('\u00b0', ''))) as [
    number,
    number,
  ];
  if (Math.abs(latitude) > 90 || Math.abs(longitude) > 180) return null;
  return { latitude: latitude === 0 ? 0 : latitude, longitude: longitude === 0 ? 0 : longitude };
}

/** The two halves; null where there are not two, or where they could be told apart in two ways. */
function partsOf(text: string): readonly string[] | null {
  const commas = text.split(',').length - 1;
  const separator = /;/.test(text) ? / ?; ?/ : /, /.test(text) ? / ?, / : / /.test(text) ? / / : /,/;
  // "77,8" could be two numbers or one: without white space a comma divides points alone.
  if (separator.source === ',' && (commas !== 1 || !text.split(',').every((part) => part.includes('.'))))
    return null;
  const parts = text.split(separator);
  return parts.length === 2 ? parts : null;
}
