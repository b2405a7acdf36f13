import type { TextKey } from '../texts/t.ts';

/**
 * How one field of a kind is asked for. What the field may hold stands in the kind's table (campaign's schema.ts);
 * here stands what a person with gloves on is offered for it.
 */
export interface Ask {
  readonly field: string;
  /** Units offered, the usual one first; the field's own unit alone where none is named. */
  readonly units?: readonly string[];
  /** Units that hang on what was answered before ("1000 g" of a balance, "25 mm" of a caliper). */
  readonly unitsBy?: { readonly field: string; readonly units: Readonly<Record<string, readonly string[]>> };
  /** What the number begins with: cold is below zero, so its sign is there already. */
  readonly start?: '-';
  /** A height against something: higher, lower or level first, then how much. No key for a minus is needed. */
  readonly height?: true;
  /** Sixteen winds as buttons, told in degrees. */
  readonly winds?: true;
  /** Values around the last one as buttons, this many of the unit apart. */
  readonly near?: number;
  /** Taken by Next alone: a reading, or what the newest thing of this kind says. */
  readonly propose?: string | { readonly newest: true };
  /** Words shown at once; the others stand behind "Other". All where it is left out. */
  readonly first?: number;
  /** Answers in words that are at hand; what was said before stands beside them. */
  readonly usual?: readonly TextKey[];
  /** A name of its own: this text and the next free number are proposed. */
  readonly numbered?: TextKey;
  /** Long words: several lines. */
  readonly long?: true;
  /** Must be answered although the kind does not require it. */
  readonly must?: true;
  /** The question in words, where "B-R034: depth" would not do; {{of}} is whose reading it is. */
  readonly title?: TextKey;
  readonly skip?: TextKey;
  /** Asked only where an earlier answer is one of these words. */
  readonly when?: { readonly field: string; readonly is: readonly string[] };
  readonly hint?: TextKey;
}

/** What a form asks, one question after the other, and what it offers once those are answered. */
export interface Plan {
  readonly asks: readonly Ask[];
  readonly more: readonly Ask[];
}
