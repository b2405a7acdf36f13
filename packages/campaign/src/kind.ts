import type { LengthUnit } from './unit.ts';

/**
 * A kind of thing that people log, as one table. From it follow the bytes that are written (decide.ts), how they
 * are read back (apply.ts), the views, the doubts about unusual values, and the forms and columns of the screens
 * and the command line.
 *
 * **To add a field** (say, the diameter of a piece): add one line to the kind's table in its part's schema.ts.
 *
 *     { name: 'diameter', label: 'diameter', quantity: 'length', unit: 'mm', usual: [0.05, 0.15] },
 *
 * Old entries simply lack it; entries written by older versions stay readable. It appears in
 * `ThingView.readings`, can be corrected, contradicted and settled like every other field. Nothing else changes
 * unless a number is computed from it. A new quantity (mass, say) is one more shape below, its units in unit.ts, and
 * one more case in reading.ts.
 *
 * **To add a kind**: write its table in the schema.ts of the part of the work it belongs to, and list it in
 * kinds.ts: from then on it can be logged, corrected, withdrawn and joined. hole-view.ts (or setup/view.ts, for what
 * belongs to the campaign) says where screens find it and how it is called. Surprises worth a question go into a
 * function of the part's doubts.ts, listed in doubts.ts.
 *
 * **Never** change the meaning of a field that was released: give the new meaning a new name. Raise `version` only
 * where an older build would misread the entry; it then keeps the entry and says that it does not understand it (J5).
 */
export interface Kind {
  /** Word of commands and views: "run". */
  readonly kind: string;
  /** Kind of the entry that logs one: "run.logged". */
  readonly entry: string;
  /** Newest version of that entry this build can read and the one it writes. */
  readonly version: number;
  /** The thread it is told in. */
  readonly under: 'campaign' | 'hole';
  readonly plural: string;
  readonly fields: readonly Field[];
}

interface AnyField {
  readonly name: string;
  /** In the crew's words, for sentences: "driller's depth at the start". */
  readonly label: string;
  readonly required?: boolean;
}

/** A length or depth. State holds metres. */
export interface LengthField extends AnyField {
  readonly quantity: 'length';
  /** Unit assumed where none is typed. */
  readonly unit: LengthUnit;
  /** Metres, least and most. Outside is a question, never a refusal. */
  readonly usual: readonly [number, number];
}

/** A whole number from 1 on. */
export interface CountField extends AnyField {
  readonly quantity: 'count';
  readonly usual: readonly [number, number];
}

export interface WordField extends AnyField {
  readonly quantity: 'word';
  /** The only words allowed, lower or upper case alike. */
  readonly words: readonly string[];
}

export interface TextField extends AnyField {
  readonly quantity: 'text';
  /** Most characters. */
  readonly most: number;
}

/** Another thing of the same hole or campaign, by id. */
export interface ThingField extends AnyField {
  readonly quantity: 'thing';
  readonly of: string;
}

export type Field = LengthField | CountField | WordField | TextField | ThingField;
