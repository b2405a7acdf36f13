import type { Unit } from '../forms/typed.ts';
import type { TextKey } from '../texts/t.ts';

/** How one reading of a thing is asked for again, when it is corrected. */
export interface FieldForm {
  readonly field: string;
  readonly label: TextKey;
  readonly units: readonly Unit[];
  /** Words to pick from, where the reading is a word. */
  readonly choices?: readonly { readonly value: string; readonly label: TextKey }[];
  /** Where it is no plain number: own words, a height above or below the first zero, the number of a run. */
  readonly is?: 'words' | 'height' | 'run';
}

const run: readonly FieldForm[] = [
  { field: 'from', label: 'field.from', units: ['m', 'cm'] },
  { field: 'to', label: 'field.to', units: ['m', 'cm'] },
  {
    field: 'recovered',
    label: 'field.recovered',
    units: [],
    choices: [
      { value: 'core', label: 'run.recovered.core' },
      { value: 'nothing', label: 'run.recovered.nothing' },
    ],
  },
  { field: 'number', label: 'field.number', units: [''] },
];

const piece: readonly FieldForm[] = [
  { field: 'length', label: 'field.length', units: ['cm', 'm'] },
  {
    field: 'topBreak',
    label: 'field.topBreak',
    units: [],
    choices: [
      { value: 'fits', label: 'break.fits' },
      { value: 'loss', label: 'break.loss' },
      { value: 'unsure', label: 'break.unsure' },
    ],
  },
  { field: 'loss', label: 'field.loss', units: ['cm', 'm'] },
  { field: 'number', label: 'field.number', units: [''] },
];

const sounding: readonly FieldForm[] = [
  { field: 'depth', label: 'field.depth', units: ['m', 'cm'] },
  { field: 'sd', label: 'field.sd', units: ['cm', 'm'] },
  { field: 'afterRun', label: 'field.afterRun', units: [''], is: 'run' },
];

const zero: readonly FieldForm[] = [
  { field: 'surface', label: 'field.surface', units: [], is: 'words' },
  { field: 'height', label: 'field.height', units: ['cm', 'm'], is: 'height' },
];

const tables: Readonly<Record<string, readonly FieldForm[]>> = { run, piece, sounding, zero };

/** The readings of a kind that a field form asks for, in the order of the work. */
export function fieldsOf(kind: string): readonly FieldForm[] {
  return tables[kind.replace('.logged', '')] ?? [];
}

export function fieldOf(kind: string, field: string): FieldForm | undefined {
  return fieldsOf(kind).find((one) => one.field === field);
}
