/**
 * Dated horizons of Arctic and Greenland ice.
 *
 * Dates and sulphur of eruptions: eVolv2k v2.1, M. Toohey and M. Sigl 2017, Earth Syst. Sci. Data 9, 809,
 * doi:10.5194/essd-9-809-2017 (the file was read); where it has 1 January the day is unknown, and here null. Years of
 * deposition are from memory unless they name their source; the time scale behind them is that of M. Sigl et al. 2015,
 * Nature 523, 543, doi:10.1038/nature14565 (not opened).
 */

export type HorizonKind = 'volcanic' | 'weapon tests' | 'reactor';

export interface Cited {
  readonly source: string;
  /** Whether the source, or a public copy of it, was read. */
  readonly seen: 'read' | 'from memory';
}

/** When it happened; null is unknown. Years are CE. */
export interface HorizonEvent extends Cited {
  readonly year: number;
  readonly month: number | null;
  readonly day: number | null;
}

/** When it came down on Arctic ice: years CE, from and to. */
export interface Deposition extends Cited {
  readonly from: number;
  readonly to: number;
  readonly words: string;
}

export interface Horizon {
  readonly name: string;
  readonly kind: HorizonKind;
  readonly event: HorizonEvent;
  /** Sulphur brought into the stratosphere with its standard deviation, Tg S; null where none is published. */
  readonly sulphur: { readonly value: number; readonly sd: number } | null;
  readonly deposition: Deposition;
  /** What must not be concluded from it; null for nothing. */
  readonly remark: string | null;
}

const evolv2k: Cited = {
  source: 'eVolv2k v2.1, Toohey & Sigl 2017, Earth Syst. Sci. Data 9, 809, doi:10.5194/essd-9-809-2017',
  seen: 'read',
};
const memory: Cited = { source: 'common knowledge of the trade, no source', seen: 'from memory' };
const wei2008: Cited = {
  source: 'Wei et al. 2008, Geophys. Res. Lett. 35, L16501, doi:10.1029/2008GL035117, abstract',
  seen: 'read',
};
const lefauconnier: Cited = {
  source: 'Lefauconnier et al. 1994, J. Glaciol., introduction and abstract',
  seen: 'read',
};
const pinglot: Cited = {
  source: 'Pinglot et al. 1999, Polar Res. 18, 315, doi:10.3402/polar.v18i2.6590, abstract',
  seen: 'read',
};
const abbott: Cited = {
  source: 'Abbott et al. 2021, Clim. Past 17, 565, doi:10.5194/cp-17-565-2021, abstract',
  seen: 'read',
};
const oppenheimer: Cited = {
  source: 'Oppenheimer et al. 2018, Climatic Change, doi:10.1007/s10584-018-2171-9, abstract',
  seen: 'read',
};
const plunkett: Cited = {
  source: 'Plunkett et al. 2022, Clim. Past 18, 45, doi:10.5194/cp-18-45-2022, abstract',
  seen: 'read',
};
const cluster: Cited = {
  source: 'paper on a "forgotten cluster" of eruptions, its abstract as a public file quotes it',
  seen: 'read',
};

/** Year, month, day; what is left out is unknown. */
type Written = readonly [year: number, month?: number, day?: number];

/** An eruption of eVolv2k: its date and sulphur as the file has them. */
const eruption = (
  name: string,
  [year, month, day]: Written,
  [value, sd]: readonly [number, number],
  deposition: Deposition,
  remark: string | null = null,
): Horizon => ({
  name,
  kind: 'volcanic',
  event: { year, month: month ?? null, day: day ?? null, ...evolv2k },
  sulphur: { value, sd },
  deposition,
  remark,
});

const fell = (from: number, to: number, words: string, cited: Cited = memory): Deposition => ({
  from,
  to,
  words,
  ...cited,
});

const artificial = (
  name: string,
  kind: HorizonKind,
  [year, month, day]: Written,
  cited: Cited,
  deposition: Deposition,
  remark: string | null,
): Horizon => ({
  name,
  kind,
  event: { year, month: month ?? null, day: day ?? null, ...cited },
  sulphur: null,
  deposition,
  remark,
});

/** From the youngest to the oldest. */
export const horizons: readonly Horizon[] = [
  artificial(
    'Chernobyl',
    'reactor',
    [1986, 4, 26],
    lefauconnier,
    fell(1986, 1986, 'spring 1986', lefauconnier),
    'Total beta alone must not assign 1986: at one Arctic glacier it has no peak there, only 137Cs and 134Cs have. Melt may move the peak.',
  ),
  artificial(
    'tritium maximum',
    'weapon tests',
    [1963],
    memory,
    fell(1963, 1963, 'spring to summer 1963'),
    'Of the northern hemisphere. Melt may move the peak.',
  ),
  artificial(
    'weapon-test maximum',
    'weapon tests',
    [1962],
    pinglot,
    fell(1962, 1963, '1962 on an Arctic archipelago; 1962 to 1963 elsewhere (from memory)', lefauconnier),
    'Tests mainly of 1961 and 1962. Melt may move the peak.',
  ),
  artificial(
    'first weapon-test rise',
    'weapon tests',
    [1954, 3, 1],
    memory,
    fell(1954, 1955, 'first rise of total beta and 137Cs, 1954 to 1955'),
    'A rise, not a peak: its depth depends on the threshold that is set.',
  ),
  {
    name: 'Novarupta (Katmai)',
    kind: 'volcanic',
    event: { year: 1912, month: 6, day: 6, ...memory },
    sulphur: null,
    deposition: fell(1912, 1913, '1912 to 1913'),
    remark: 'The series of sulphur that is used here ends in 1900.',
  },
  eruption('Krakatau', [1883, 8, 27], [9.34, 1.91], fell(1884, 1884, '1884'), 'Weak in Greenland.'),
  eruption('Askja', [1875, 4, 1], [0.67, 0.32], fell(1875, 1875, '1875')),
  eruption('Cosigüina', [1835, 1, 20], [9.48, 2.21], fell(1835, 1835, '1835')),
  eruption('unidentified 1831', [1831], [12.98, 3.41], fell(1831, 1832, '1831 to 1832')),
  eruption('Tambora', [1815, 4, 10], [28.08, 4.49], fell(1816, 1816, '1816')),
  eruption('unidentified 1809', [1809], [19.26, 3.54], fell(1809, 1810, '1809 to 1810')),
  eruption(
    'Laki',
    [1783, 6, 15],
    [20.81, 7.04],
    fell(1783, 1783, 'late 1783, with the tephra', wei2008),
    'It began on 8 June (from memory).',
  ),
  eruption('unidentified 1695', [1695], [15.74, 2.88], fell(1695, 1695, '1695')),
  eruption('Parker', [1640, 12, 26], [18.68, 4.28], fell(1641, 1641, '1641')),
  eruption(
    'Huaynaputina',
    [1600, 2, 17],
    [18.95, 4.03],
    fell(1601, 1601, '1601'),
    'Most sources have 19 February (from memory).',
  ),
  eruption('Veiðivötn', [1477, 2, 1], [5.12, 1.61], fell(1477, 1477, '1477, confirmed by tephra', abbott)),
  eruption(
    '1458 event',
    [1458],
    [32.98, 4.8],
    fell(1458, 1459, '1458 to 1459'),
    'Called Kuwae in older work. A separate event lies at 1453.',
  ),
  eruption('1453 event', [1453], [9.97, 3.07], fell(1453, 1453, '1453'), 'Not the larger one of 1458.'),
  eruption('Samalas', [1257, 7, 1], [59.42, 10.86], fell(1258, 1259, '1258 to 1259')),
  eruption('1230 event', [1230], [23.78, 5.24], fell(1230, 1230, '1230')),
  eruption('1171 event', [1171], [18.05, 3.67], fell(1171, 1171, '1171')),
  eruption('1108 event', [1108], [19.16, 4.71], fell(1108, 1113, '1108 to 1113', cluster), 'Not Hekla 1104.'),
  eruption('Changbaishan', [946, 11, 1], [1.72, 0.61], fell(946, 947, '946 to 947')),
  eruption(
    'Eldgjá',
    [939, 4, 1],
    [16.23, 4.97],
    fell(939, 940, 'spring 939 to autumn 940 or later', oppenheimer),
  ),
  eruption('574 event', [574], [24.14, 5.02], fell(574, 574, '574')),
  eruption('540 event', [540], [31.85, 7.73], fell(540, 541, '540 to 541')),
  eruption('536 event', [536], [18.81, 6.94], fell(536, 536, '536')),
  {
    name: 'layer once called Vesuvius 79',
    kind: 'volcanic',
    event: { year: 79, month: null, day: null, ...plunkett },
    sulphur: null,
    deposition: fell(79, 79, 'a layer once dated to 79', plunkett),
    remark: 'Not Vesuvius: its glass is Aleutian. Must not be used as a marker of the year 79.',
  },
];
