/** A column's heading taken apart. */
export interface Header {
  /** As it stands in the file; lines of a heading joined by a blank. */
  readonly text: string;
  /** Lower case, one blank between, no unit, no accents. */
  readonly words: string;
  /** As written; null where the heading names none. */
  readonly unit: string | null;
}

/**
 * Ways of writing units that stand behind a heading without brackets. Only such as cannot be taken for another word:
 * "depth_min" is a least depth, not minutes.
 */
const bareUnits = new Set([
  ...['m', 'dm', 'cm', 'mm', 'km', 'ft', 'µm', 'um'],
  ...['g', 'kg', 'mg', 'µg', 'ml', 'kn', 'rpm', 'ppb', 'ppm', 'ppt', 'permil', '‰', '%'],
  ...['°c', 'degc', 'deg', '°', 'kpa', 'hpa', 'mv', 'ma', 'khz', 'hz'],
]);

/** What the cells of a line of units look like: a unit alone, or in brackets, or a dash for "none". */
const moreUnits = new Set([
  ...[
    'a',
    's',
    'min',
    'h',
    'd',
    'v',
    'n',
    'w',
    'in',
    'k',
    'c',
    'yr',
    'utc',
    'metres',
    'meters',
    'metre',
    'meter',
  ],
  ...[
    'kg/m3',
    'kg m-3',
    'kg/m³',
    'g/cm3',
    'g/cm³',
    'µs/cm',
    'us/cm',
    'ng/g',
    'µg/l',
    'ug/l',
    'mbq',
    '-',
    '–',
    '1',
  ],
]);

const bracketed = /^(.*?)\s*[[(]\s*([^\])]*?)\s*[\])]\s*$/s;
/** "T / °C", "m/kg" (ISO 80000-1:2022, 7.2.1: the quotient of the quantity and its unit). */
const quotient = /^(.*\S)\s*\/\s*(\S.*)$/s;

const plain = (text: string): string => text.toLowerCase().replace(/μ/g, 'µ').trim();

const isBareUnit = (text: string): boolean => bareUnits.has(plain(text));

/** "m", "(cm)", "[kg m-3]", "-". */
export const isUnit = (text: string): boolean => {
  const inside = /^[[(]\s*(.*?)\s*[\])]$/.exec(text.trim())?.[1] ?? text.trim();
  return isBareUnit(inside) || moreUnits.has(plain(inside));
};

/** A line-of-units cell without its brackets; null for a dash. */
export const unitIn = (text: string): string | null => {
  const inside = /^[[(]\s*(.*?)\s*[\])]$/.exec(text.trim())?.[1] ?? text.trim();
  return /^[-–1]?$/.test(inside) ? null : inside;
};

const wordsOf = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}\p{N}#%]+/u)
    .filter((word) => word !== '')
    .join(' ');

/** Reads "Length (cm)", "depth_to_m", "mass [g]", "T / °C", "Länge, mm", "depthTop". */
export const readHeader = (text: string): Header => {
  const inBrackets = bracketed.exec(text);
  if (inBrackets !== null && inBrackets[1] !== '') {
    const [, name = '', inside = ''] = inBrackets;
    // "Break (top)" is a word in brackets; nothing else can be told from a unit, so short ones are taken for one
    const isWord = inside.length > 12 || (/^\p{L}{3,}$/u.test(inside) && !isUnit(inside));
    if (!isWord) return { text, words: wordsOf(name), unit: inside === '' ? null : inside };
    return { text, words: wordsOf(`${name} ${inside}`), unit: null };
  }
  const divided = quotient.exec(text);
  if (divided !== null && isUnit(divided[2]!))
    return { text, words: wordsOf(divided[1]!), unit: divided[2]!.trim() };
  const last = /^(.*\S)[\s_,]+([^\s_,]+)$/su.exec(text.trim());
  if (last !== null && isBareUnit(last[2]!)) return { text, words: wordsOf(last[1]!), unit: last[2]! };
  return { text, words: wordsOf(text), unit: null };
};
