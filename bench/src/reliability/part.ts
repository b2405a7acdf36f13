/** Where a part of the harness says what it measured. */
interface Teller {
  figure(what: string, figures: object, holds: boolean): void;
  /** The same test on something that is wrong. Every part has one, or what it says is void. */
  control(what: string, figures: object, isCaught: boolean): void;
}

/** One promise that is tried in full: what a person names on the command line. */
export interface Part {
  /** Of the target: "D1". Several parts may share one. */
  readonly id: string;
  readonly what: string;
  /** What this machine lacks to try it, in words; null where nothing is lacking. */
  readonly lacks?: () => string | null;
  /** @param minutes how long a part takes that takes as long as it is told */
  readonly run: (tell: Teller, minutes: number) => Promise<void>;
}
