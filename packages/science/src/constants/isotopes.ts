import type { Constant } from './constant.ts';

/** All of these were published with an error, or are exact. */
type WithError = Constant & { readonly sd: number };

const ciaaw =
  'IUPAC Commission on Isotopic Abundances and Atomic Weights, hydrogen reference materials, ciaaw.org (expanded uncertainty, k = 2, halved)';
const iaea = 'IAEA, reference products VSMOW2 and SLAP2, reference sheet';
const slap =
  'IUPAC Commission on Atomic Weights and Isotopic Abundances 1993 (Pure Appl. Chem. 66, 2423, 1994)';

const ratio = (symbol: string, what: string, value: number, sd: number, source: string): WithError => ({
  symbol,
  what: `${what} in VSMOW`,
  value,
  sd,
  unit: '1',
  source,
  seen: 'read',
});
const delta = (
  isotope: '2H' | '18O',
  water: string,
  value: number,
  sd: number,
  source: string,
): WithError => ({
  symbol: `δ${isotope === '2H' ? '²H' : '¹⁸O'}(${water})`,
  what: `δ of ${water} against VSMOW`,
  value,
  sd,
  unit: '[ppth]',
  source,
  seen: 'read',
});

/** Isotope ratios of ocean water and δ of reference waters. */
export const isotopes = {
  vsmow2H: ratio(
    'R(²H)',
    'atoms of ²H per ¹H',
    155.76e-6,
    0.05e-6,
    'R. Hagemann, G. Nief, E. Roth 1970, Tellus 22, 712-715',
  ),
  vsmow18O: ratio(
    'R(¹⁸O)',
    'atoms of ¹⁸O per ¹⁶O',
    2005.2e-6,
    0.45e-6,
    'P. Baertschi 1976, Earth Planet. Sci. Lett. 31, 341-344 (its error from memory)',
  ),
  vsmow17O: {
    ...ratio(
      'R(¹⁷O)',
      'atoms of ¹⁷O per ¹⁶O',
      379.9e-6,
      0.8e-6,
      'W. Li, B. Ni, D. Jin, Q. Zhang 1988, Kexue Tongbao 33, 1610',
    ),
    seen: 'from memory',
  },
  vsmowDelta2H: delta('2H', 'VSMOW', 0, 0, slap),
  vsmowDelta18O: delta('18O', 'VSMOW', 0, 0, slap),
  slapDelta2H: delta('2H', 'SLAP', -428, 0, slap),
  slapDelta18O: delta('18O', 'SLAP', -55.5, 0, slap),
  vsmow2Delta2H: delta('2H', 'VSMOW2', 0, 0.3, iaea),
  vsmow2Delta18O: delta('18O', 'VSMOW2', 0, 0.02, iaea),
  slap2Delta2H: delta('2H', 'SLAP2', -427.5, 0.3, iaea),
  slap2Delta18O: delta('18O', 'SLAP2', -55.5, 0.02, iaea),
  gispDelta2H: delta('2H', 'GISP', -189.7, 0.45, ciaaw),
  gisp2Delta2H: delta('2H', 'GISP2', -258.3, 0.15, ciaaw),
  usgs45Delta2H: delta('2H', 'USGS45', -10.3, 0.2, ciaaw),
  usgs46Delta2H: delta('2H', 'USGS46', -235.8, 0.35, ciaaw),
  usgs47Delta2H: delta('2H', 'USGS47', -150.2, 0.25, ciaaw),
  usgs48Delta2H: delta('2H', 'USGS48', -2, 0.2, ciaaw),
  meteoricSlope: {
    symbol: 's',
    what: 'slope of the line of meteoric waters, δ²H over δ¹⁸O',
    value: 8,
    sd: 0,
    unit: '1',
    source: 'H. Craig 1961, Science 133, 1702; W. Dansgaard 1964, Tellus 16, 436-468, for d = δ²H - 8 δ¹⁸O',
    seen: 'from memory',
  },
  oxygen17Slope: {
    symbol: 'λ',
    what: 'slope of ln(1 + δ¹⁷O) over ln(1 + δ¹⁸O) of meteoric waters',
    value: 0.528,
    sd: 0,
    unit: '1',
    source:
      'H. A. J. Meijer, W. J. Li 1998, Isotopes Environ. Health Stud. 34, 349-369; B. Luz, E. Barkan 2010',
    seen: 'from memory',
  },
} as const satisfies Readonly<Record<string, WithError>>;
