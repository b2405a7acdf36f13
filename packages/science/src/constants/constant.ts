/** One constant as published: everything that a result has to say about it. */
export interface Constant {
  /** As formulas write it: `R`, `T½`, `E`. */
  readonly symbol: string;
  readonly what: string;
  readonly value: number;
  /** Standard uncertainty in the same unit; 0 exact by definition, null where the source gives none. */
  readonly sd: number | null;
  /** UCUM code, or `m w.e.` for metres of water. */
  readonly unit: string;
  /** Who published it, where: author year, journal or handbook, table or equation, doi. */
  readonly source: string;
  /** How we know the number: read in the source or in a public copy of it, computed from others, or remembered. */
  readonly seen: 'read' | 'computed' | 'from memory';
}

/** Constants of one subject by the name that code uses. */
export type Constants = Readonly<Record<string, Constant>>;
