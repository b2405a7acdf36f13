import { type TextKey, t } from '../texts/t.ts';

/** How codes of units (UCUM) are written for people; a code that is not here is written as it is. */
const signs: Readonly<Record<string, string>> = {
  '1': '',
  Cel: '°C',
  deg: '°',
  um: 'µm',
  'kg/m3': 'kg/m³',
  m2: 'm²',
  m3: 'm³',
  '[ppm]/K': 'ppm/K',
  '1/K': '/K',
};

const words: Readonly<Record<string, TextKey>> = {
  min: 'calc.unit.min',
  h: 'calc.unit.h',
  d: 'calc.unit.d',
  wk: 'calc.unit.wk',
  mo: 'calc.unit.mo',
  a: 'calc.unit.a',
};

/** "mm", "°C", "days". */
export function unitWords(code: string): string {
  const word = words[code];
  if (word !== undefined) return t(word);
  const known = signs[code];
  if (known !== undefined) return known;
  // "m w.e." has points of its own.
  return code.replaceAll('2', '²').replaceAll('3', '³');
}

/** Behind a number: "12 mm", with nothing between where there is no unit. */
export function withUnit(figure: string, code: string): string {
  const unit = unitWords(code);
  return unit === '' ? figure : `${figure}\u00a0${unit}`;
}
