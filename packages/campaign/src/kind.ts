import type { Dimension, UnitOf } from './unit.ts';

/**
 * A kind of thing that people log, as one table. From it follow the bytes that are written (decide.ts), how they
 * are read back (apply.ts), the views, the doubts about unusual values, and the forms and columns of the screens
 * and the command line.
 *
 * **To add a field** (say, the diameter of a piece): add one line to the kind's table in its part's schema.ts, and how
 * it is called to texts/kinds.ts ("field.piece.diameter").
 *
 *     { name: 'diameter', quantity: 'length', unit: 'mm', usual: [0.05, 0.15] },
 *
 * Old entries simply lack it; entries written by older versions stay readable. It appears in
 * `ThingView.readings`, can be corrected, contradicted and settled like every other field. Nothing else changes
 * unless a number is computed from it. A new dimension (pressure, say) is one more table in unit.ts and a name in
 * texts/record.ts; anything that is not a number with a unit is one more shape below and one more case in reading.ts.
 *
 * **To add a kind**: write its table in the schema.ts of the part of the work it belongs to, its names in
 * texts/kinds.ts, and list it in kinds.ts: from then on it can be logged, corrected, withdrawn and joined. hole-view.ts (or setup/view.ts, for what
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
  /** Field that says how one is called, where its part of the work has no names of its own: a text or another thing. */
  readonly calledBy?: string;
  /**
   * The right that it takes to log one, to correct, withdraw or join it; `log` where none is named. What somebody does
   * alone in the tent at night needs no other.
   */
  readonly right?: Right;
  readonly fields: readonly Field[];
}

/** Who may write entries, who may change what the others work by, who may say that a result stands. */
export type Right = 'log' | 'plan' | 'signOff';

interface AnyField {
  readonly name: string;
  readonly required?: boolean;
  /** Where saying this field takes more than its kind does. */
  readonly right?: Right;
}

/** A number with a unit. State holds the base unit of its dimension: metres, kilograms, degrees Celsius ... */
export type MeasureField = { readonly [D in Dimension]: Measured<D> }[Dimension];

interface Measured<D extends Dimension> extends AnyField {
  readonly quantity: D;
  /** Unit assumed where none is typed. */
  readonly unit: UnitOf<D>;
  /** Least and most, in the base unit. Outside is a question, never a refusal; so is a number below a least of 0. */
  readonly usual: readonly [number, number];
}

/** Several lengths in one reading ("98,1 98.3 mm"). State holds their mean in metres; lengthsIn gives each. */
export interface LengthsField extends AnyField {
  readonly quantity: 'lengths';
  readonly unit: UnitOf<'length'>;
  /** Metres, least and most of each. */
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

/** A moment: ISO 8601 with date, time and offset. */
export interface TimeField extends AnyField {
  readonly quantity: 'time';
}

/** A file kept beside the journal, by the SHA-256 of its bytes in 64 hexadecimal digits. */
export interface AttachmentField extends AnyField {
  readonly quantity: 'attachment';
}

/** Latitude and longitude in decimal degrees, WGS 84; positionIn gives both. */
export interface PositionField extends AnyField {
  readonly quantity: 'position';
}

/** Another thing of the same hole, or one of the campaign, by id. */
export interface ThingField extends AnyField {
  readonly quantity: 'thing';
  /** Kind or kinds that it may be. */
  readonly of: string | readonly string[];
}

export type Field =
  | MeasureField
  | LengthsField
  | CountField
  | WordField
  | TextField
  | TimeField
  | AttachmentField
  | PositionField
  | ThingField;
