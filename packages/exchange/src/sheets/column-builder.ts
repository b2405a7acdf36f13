import { decideMark, type Mark, type MarkEvidence, saysNothing } from './numerals.ts';
import { TextPool } from './text-pool.ts';

/** What stood in a column of figures, as bits: marks that can only be decimal, and marks that could be either. */
const SURE_POINT = 1;
const SURE_COMMA = 2;
const EITHER_POINT = 4;
const EITHER_COMMA = 8;
const GROUPED = 16;

const POINT = 0x2e;
const COMMA = 0x2c;
const LESS = 0x3c;
const MORE = 0x3e;
const MINUS = 0x2d;
const PLUS = 0x2b;
const SPACE = 0x20;
const EXPONENT = 0x45;

/** Powers of ten that a double holds exactly. */
const tens = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));
/** Most digits that are a whole number without rounding, whatever they are. */
const DIGITS = 15;

export type BuiltColumn =
  | {
      readonly holds: 'figures';
      readonly values: Float64Array;
      readonly says: Uint8Array;
      readonly evidence: MarkEvidence;
      readonly decide: (others: readonly MarkEvidence[]) => Mark | 'either' | 'ask' | null;
    }
  | { readonly holds: 'words'; readonly codes: Uint32Array; readonly texts: TextPool };

/** Grows one typed column from cells given as ranges of bytes. Wants no text made for a figure. */
export class ColumnBuilder {
  readonly #bytes: Uint8Array;
  readonly #decoder: InstanceType<typeof TextDecoder>;
  holds: 'unknown' | 'figures' | 'words';
  #room: number;
  #values = new Float64Array(0);
  #says = new Uint8Array(0);
  #codes = new Uint32Array(0);
  #bits = 0;
  readonly #texts: TextPool;

  constructor(bytes: Uint8Array, label: string, holds: 'unknown' | 'figures' | 'words', room: number) {
    this.#bytes = bytes;
    this.#decoder = new TextDecoder(label);
    this.#texts = new TextPool(bytes, label);
    this.holds = holds;
    this.#room = room;
    this.#makeRoom();
  }

  /** Room for one more row. */
  #makeRoom(): void {
    if (this.holds === 'figures') {
      this.#values = grown(this.#values, new Float64Array(this.#room).fill(Number.NaN, this.#values.length));
      this.#says = grown(this.#says, new Uint8Array(this.#room));
    } else if (this.holds === 'words') this.#codes = grown(this.#codes, new Uint32Array(this.#room));
  }

  /**
   * Takes the cell of a row; bytes of a quoted cell are given without its quotation marks.
   *
   * @returns what is wrong with it; null where nothing is
   */
  put(row: number, from: number, to: number, isQuoted: boolean): string | null {
    if (row >= this.#room) {
      this.#room = Math.ceil(this.#room * 1.5);
      this.#makeRoom();
    }
    if (this.holds === 'figures' && this.#figure(row, from, to)) return null;
    const start = trimmedStart(this.#bytes, from, to);
    const end = trimmedEnd(this.#bytes, start, to);
    if (start === end) return null;
    if (this.holds === 'unknown') {
      const digit = this.#bytes[end - 1]!;
      this.holds = digit >= 0x30 && digit <= 0x39 ? 'figures' : 'words';
      this.#makeRoom();
      if (this.holds === 'figures' && this.#figure(row, from, to)) return null;
    }
    if (this.holds === 'words') {
      this.#codes[row] = this.#texts.code(start, end, isQuoted);
      return null;
    }
    const text = this.#decoder.decode(this.#bytes.subarray(start, end));
    if (saysNothing(text)) return null;
    this.#says[row] = 4;
    if (/^[+-]?\d{1,3}(?:[.,' ]\d{3})+(?:[.,]\d+)?$/.test(text)) {
      this.#bits |= GROUPED;
      return `"${text.slice(0, 40)}" has separators of thousands`;
    }
    return `"${text.slice(0, 40)}" is no figure`;
  }

  /** False where the cell is no plain figure: nothing is changed then. */
  #figure(row: number, from: number, to: number): boolean {
    const bytes = this.#bytes;
    let at = from;
    while (at < to && bytes[at] === SPACE) at++;
    let says = 1;
    if (bytes[at] === LESS || bytes[at] === MORE) {
      says = bytes[at] === LESS ? 2 : 3;
      at++;
      while (at < to && bytes[at] === SPACE) at++;
    }
    const isNegative = bytes[at] === MINUS;
    if (isNegative || bytes[at] === PLUS) at++;
    const first = at;
    let whole = 0;
    let mark = 0;
    let markAt = -1;
    let code = 0;
    for (; at < to; at++) {
      code = bytes[at]!;
      if (code >= 0x30 && code <= 0x39) whole = whole * 10 + (code - 0x30);
      else if ((code === POINT || code === COMMA) && markAt < 0) {
        mark = code;
        markAt = at;
      } else break;
    }
    const end = at;
    const digits = end - first - (markAt < 0 ? 0 : 1);
    if (digits === 0) return false;
    const decimals = markAt < 0 ? 0 : end - markAt - 1;
    let power = 0;
    if (at < to && (code | 0x20) === (EXPONENT | 0x20)) {
      at++;
      const isDown = bytes[at] === MINUS;
      if (isDown || bytes[at] === PLUS) at++;
      const start = at;
      for (; at < to && bytes[at]! >= 0x30 && bytes[at]! <= 0x39; at++)
        power = power * 10 + (bytes[at]! - 0x30);
      if (at === start || at - start > 3) return false;
      if (isDown) power = -power;
    }
    const isExponent = at !== end;
    while (at < to && bytes[at] === SPACE) at++;
    if (at !== to) return false;
    const scale = power - decimals;
    // Digits and power of ten are both exact, so the quotient is the double nearest to the text (Clinger 1990).
    const isExact = digits <= DIGITS && scale >= -22 && scale <= 22;
    const value = isExact
      ? scale < 0
        ? whole / tens[-scale]!
        : whole * tens[scale]!
      : this.#slow(first, to);
    this.#values[row] = isNegative ? -value : value;
    this.#says[row] = says;
    if (markAt >= 0) {
      const before = markAt - first;
      const isEither = decimals === 3 && before >= 1 && before <= 3 && bytes[first] !== 0x30 && !isExponent;
      if (mark === POINT) this.#bits |= isEither ? EITHER_POINT : SURE_POINT;
      else this.#bits |= isEither ? EITHER_COMMA : SURE_COMMA;
    }
    return true;
  }

  #slow(from: number, to: number): number {
    return Number(this.#decoder.decode(this.#bytes.subarray(from, to)).trim().replace(',', '.'));
  }

  /** @param rows that the table turned out to have */
  finish(rows: number): BuiltColumn {
    if (rows > this.#room) {
      this.#room = rows;
      this.#makeRoom();
    }
    if (this.holds === 'words')
      return { holds: 'words', codes: this.#codes.subarray(0, rows), texts: this.#texts };
    if (this.holds === 'unknown') {
      this.holds = 'figures';
      this.#makeRoom();
    }
    const bits = this.#bits;
    const evidence: MarkEvidence = {
      decimal: marksIn(bits, SURE_POINT, SURE_COMMA),
      either: marksIn(bits, EITHER_POINT, EITHER_COMMA),
      grouped: bits & GROUPED ? 1 : 0,
      example: null,
    };
    return {
      holds: 'figures',
      values: this.#values.subarray(0, rows),
      says: this.#says.subarray(0, rows),
      evidence,
      decide: (others) => decideMark(evidence, others),
    };
  }
}

const marksIn = (bits: number, point: number, comma: number): readonly Mark[] => [
  ...(bits & point ? ['.' as const] : []),
  ...(bits & comma ? [',' as const] : []),
];

const grown = <T extends Float64Array | Uint8Array | Uint32Array>(old: T, larger: T): T => {
  larger.set(old);
  return larger;
};

const trimmedStart = (bytes: Uint8Array, from: number, to: number): number => {
  let at = from;
  while (at < to && bytes[at]! <= SPACE) at++;
  return at;
};

const trimmedEnd = (bytes: Uint8Array, from: number, to: number): number => {
  let at = to;
  while (at > from && bytes[at - 1]! <= SPACE) at--;
  return at;
};
