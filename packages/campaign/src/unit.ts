/**
 * Units a person may type behind a length, with what turns them into metres. Decimal ones are a power of ten, so
 * that no factor rounds; inch and foot are exact by definition (international yard and pound agreement, 1959:
 * 1 in = 25.4 mm).
 */
export type LengthUnit = 'm' | 'dm' | 'cm' | 'mm' | 'km' | 'in' | 'ft';

export type Factor = { readonly power: number } | { readonly times: number };

export const lengthUnits: ReadonlyMap<string, Factor> = new Map<LengthUnit, Factor>([
  ['m', { power: 0 }],
  ['dm', { power: -1 }],
  ['cm', { power: -2 }],
  ['mm', { power: -3 }],
  ['km', { power: 3 }],
  ['in', { times: 0.0254 }],
  ['ft', { times: 0.3048 }],
]);

/** Other ways of writing them. */
export const unitWords: ReadonlyMap<string, LengthUnit> = new Map<string, LengthUnit>([
  ['metre', 'm'],
  ['metres', 'm'],
  ['meter', 'm'],
  ['meters', 'm'],
]);
