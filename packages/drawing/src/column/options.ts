/** How a core column is drawn. */
export interface ColumnOptions {
  /** Scale: millimetres of picture for a metre of ice. */
  readonly mmPerMetre: number;
  /** Depths shown, metres. */
  readonly window: { readonly from: number; readonly to: number };
  /** Millimetres. */
  readonly width: number;
  /** Parts left out or put in; each is there unless said otherwise. */
  readonly show?: Partial<ColumnParts>;
  /** The piece or run that is being looked at. */
  readonly selected?: string | null;
  /** Height of the type in millimetres; 3.3 unless said otherwise. */
  readonly type?: number;
  /** Sentences in the reader's language. */
  readonly say?: (word: ColumnWord, values?: Readonly<Record<string, string | number>>) => string;
  /** Numbers in the reader's way of writing. */
  readonly number?: (value: number, decimals: number) => string;
}

export interface ColumnParts {
  /** Solved depth with ticks, left of the core. */
  readonly axis: boolean;
  /** Names of the scales over their columns. */
  readonly heading: boolean;
  /** Bars of standard deviation and range beside the core. */
  readonly uncertainty: boolean;
  /** Brackets and names of runs. */
  readonly runs: boolean;
  /** The driller's depths, each joined to the solved depth of the hole's bottom. */
  readonly driller: boolean;
  /** Symbols where a person is needed. */
  readonly marks: boolean;
  readonly bubbles: boolean;
  /** Melt layers, dust and whatever else was seen. */
  readonly features: boolean;
}

export const everything: ColumnParts = {
  axis: true,
  heading: true,
  uncertainty: true,
  runs: true,
  driller: true,
  marks: true,
  bubbles: true,
  features: true,
};

/** The whole hole as a thin strip: ice, gaps and marks alone. */
export const stripOnly: ColumnParts = {
  axis: false,
  heading: false,
  uncertainty: false,
  runs: false,
  driller: false,
  marks: true,
  bubbles: false,
  features: true,
};

/** English of every text in the picture; {{names}} are filled in. */
export const columnWords = {
  title: 'Core of hole {{hole}} from {{from}} to {{to}} m, to scale: {{pieces}} pieces of {{runs}} runs.',
  titleMarks: 'A person is needed at {{marks}} places.',
  solvedScale: 'solved, m',
  drillerScale: 'driller, m',
  zero: 'zero: {{what}}',
  zeroUnnamed: 'zero',
  noCore: 'no core',
  holeBottom: 'hole {{depth}} m ± {{sd}}',
  underCore: '{{long}} under the last piece',
  notLogged: '{{long}} not logged yet',
} as const;

export type ColumnWord = keyof typeof columnWords;

export function sayInEnglish(
  word: ColumnWord,
  values: Readonly<Record<string, string | number>> = {},
): string {
  return columnWords[word].replace(/\{\{(\w+)\}\}/g, (_, name: string) => String(values[name] ?? ''));
}

type Write = (value: number, decimals: number) => string;

/** A standard deviation in the unit it is spoken in: "1.2 m", "3 cm", "4 mm". Metres in. */
export function spread(sd: number, number: Write): string {
  if (sd >= 0.995) return `${number(sd, 1)} m`;
  if (sd >= 0.0095) return `${number(sd * 100, 0)} cm`;
  return `${number(Math.max(sd * 1000, 1), 0)} mm`;
}

/** Decimals of a depth in metres that its standard deviation leaves a meaning to. */
export function depthDecimals(sd: number): number {
  return sd >= 0.995 ? 1 : sd >= 0.0095 ? 2 : 3;
}

/** A length in metres in the unit of a bench: "0.87 m", "15 cm", "4 mm". */
export function benchLength(metres: number, number: Write): string {
  if (metres >= 0.995) return `${number(metres, 2)} m`;
  if (metres >= 0.00995) return `${number(metres * 100, 0)} cm`;
  return `${number(metres * 1000, 0)} mm`;
}
