const raised: Readonly<Record<string, string>> = {
  '2': '²',
  '3': '³',
  '4': '⁴',
  '5': '⁵',
  '6': '⁶',
};

const written: Readonly<Record<string, string>> = {
  '1': '',
  '%': '%',
  Cel: '°C',
  deg: '°',
  Ohm: 'Ω',
  um: 'µm',
  ug: 'µg',
  us: 'µs',
  umol: 'µmol',
  ueq: 'µeq',
  a_t: 'a (tropical)',
  a_g: 'a (Gregorian)',
  wk: 'weeks',
  mo: 'months',
  '[ppth]': '‰',
  '[ppm]': 'ppm',
  '[ppb]': 'ppb',
};

/** A unit's code as print has it: "kg/m3" is "kg/m³", "Cel" is "°C", "1" is nothing. */
export const unitWords = (code: string): string =>
  code === '1'
    ? ''
    : code
        .split('/')
        .map((part, at) => {
          const [, name = part, power = ''] = /^(.*?[A-Za-z\]])([2-6])$/.exec(part) ?? [];
          // In a quotient the 1 stays above the line.
          const word = at === 0 && part === '1' ? '1' : (written[name] ?? name);
          return `${word}${raised[power] ?? ''}`;
        })
        .join('/');
