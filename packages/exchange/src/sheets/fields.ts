import { type Field, type Kind, type MeasureField, readReading, units } from '@firnbook/campaign';
import { type Cell, isBlank, textOf } from './cells.ts';
import { type DateOrder, dateEvidence } from './dates.ts';
import { decideMark, isNumberLike, type Mark, markEvidence, plainNumeral, saysNothing } from './numerals.ts';
import { cellsOf, type SheetTable } from './tables.ts';

/** Whether a field's readings are one number with a unit. */
export const isMeasure = (field: Field): field is MeasureField =>
  'unit' in field && field.quantity !== 'lengths';

/** Fields that a cell of a table can fill. Bytes of a file stand in no cell. */
export const canFill = (field: Field): boolean => field.quantity !== 'attachment';

/** Whether a unit as written above a column is one of the field's. */
const takesUnit = (kind: Kind, field: Field, unit: string): boolean =>
  isMeasure(field) && readReading(`1 ${unit}`, field, kind).ok;

/**
 * Fields that tell one thing of a kind from the others of the hole: its number, and whatever it hangs on. Empty for
 * kinds without a number; two soundings of one depth are two.
 */
export const keyFields = (kind: Kind): readonly Field[] => {
  const number = kind.fields.find(
    ({ name, quantity, required }) => quantity === 'count' && name === 'number' && required,
  );
  if (number === undefined) return [];
  return kind.fields.filter((field) => field === number || (field.quantity === 'thing' && field.required));
};

/** The decimal mark of a column, by its own cells and those of the table's other columns. */
export const markOf = (table: SheetTable, index: number): Mark | 'either' | 'ask' | null => {
  const evidence = evidenceOf(table);
  return decideMark(
    evidence[index]!,
    evidence.filter((_, i) => i !== index),
  );
};

const kept = new WeakMap<SheetTable, ReturnType<typeof markEvidence>[]>();

export const evidenceOf = (table: SheetTable): readonly ReturnType<typeof markEvidence>[] => {
  let evidence = kept.get(table);
  if (evidence === undefined) {
    evidence = table.columns.map((_, i) => markEvidence(cellsOf(table, i)));
    kept.set(table, evidence);
  }
  return evidence;
};

const keptOrders = new WeakMap<SheetTable, Map<number, DateOrder | null>>();

/** The order of a column's dates where its cells prove one, or need none; null where a person has to say. */
export const orderOf = (table: SheetTable, index: number): DateOrder | null => {
  let orders = keptOrders.get(table);
  if (orders === undefined) keptOrders.set(table, (orders = new Map()));
  let order = orders.get(index);
  if (order === undefined) {
    const evidence = dateEvidence(cellsOf(table, index));
    order = evidence.example === null ? (evidence.orders[0] ?? null) : null;
    orders.set(index, order);
  }
  return order;
};

/** Cells of a column that say something. */
export const saying = (table: SheetTable, index: number): readonly Cell[] =>
  cellsOf(table, index).filter((cell) => !isBlank(cell) && !saysNothing(cell));

/** Share of figures inside the usual range before a unit is believed. */
const mostFigures = 0.9;

export type UnitFound =
  | { readonly is: 'named' | 'usual'; readonly unit: string }
  /** Units that would do, the field's own first where it is one of them. */
  | { readonly is: 'unclear'; readonly units: readonly string[] };

/**
 * The unit of a column's figures for a field: the heading's; where it names none, the only one in which the figures
 * are usual for the field. For depths, which begin at 0 and so are usual in any unit, the field's own.
 */
export const unitOf = (kind: Kind, field: MeasureField, table: SheetTable, index: number): UnitFound => {
  const { unit } = table.columns[index]!;
  if (unit !== null && takesUnit(kind, field, unit)) return { is: 'named', unit };
  const cells = saying(table, index).filter(isNumberLike);
  if (cells.length > 0 && cells.every((cell) => /\p{L}|%|\u2030|\u00b0/u.test(textOf(cell))))
    return { is: 'named', unit: '' };
  const candidates = [field.unit, ...Object.keys(units[field.quantity])].filter(
    (one, i, all) => all.indexOf(one) === i && (i === 0 || everyday.has(one)),
  );
  const numerals = cells.map((cell) => plainNumeral(cell, 'either')).filter((text) => text !== null);
  const fits = candidates.filter((one) => {
    const inside = numerals.filter((numeral) => {
      const read = readReading(`${numeral} ${one}`, field, kind);
      const value = read.ok ? read.reading.value : null;
      return value !== null && value >= field.usual[0] && value <= field.usual[1];
    });
    return inside.length >= mostFigures * numerals.length;
  });
  const own = field.unit as string;
  if (unit === null && fits.length === 1) return { is: 'usual', unit: fits[0]! };
  if (unit === null && field.usual[0] <= 0 && fits.includes(own)) return { is: 'usual', unit: own };
  return { is: 'unclear', units: [...new Set([...fits, ...candidates])] };
};

/** Units that stand in crews' tables; tonnes and gon do not. */
const everyday = new Set([
  'm',
  'cm',
  'mm',
  'g',
  'kg',
  '\u00b0C',
  'K',
  '\u00b0',
  'N',
  'kN',
  'kgf',
  'l',
  'ml',
  '%',
  '1',
]);

/**
 * Whether a column's cells look like a field's readings: most can be read. A word list is judged by its words, so
 * that a column of remarks is not taken for breaks.
 */
export const looksLike = (
  kind: Kind,
  field: Field,
  table: SheetTable,
  index: number,
  meant: (text: string) => string | null,
): boolean => {
  const { unit } = table.columns[index]!;
  if (unit !== null && isMeasure(field) && !takesUnit(kind, field, unit)) return false;
  if (unit !== null && field.quantity === 'word') return false;
  const cells = saying(table, index);
  if (cells.length === 0) return true;
  const good = cells.filter((cell) => {
    if (field.quantity === 'word') return meant(textOf(cell)) !== null;
    if (field.quantity === 'count' || isMeasure(field)) return isNumberLike(cell);
    return true;
  });
  return good.length * 2 >= cells.length;
};
