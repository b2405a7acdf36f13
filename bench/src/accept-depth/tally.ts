import type { Covered, Outcome, SlipOutcome } from './judge-season.ts';

/** A share with the standard error that comes of so many seasons (depths of one season go astray together). */
export interface Share {
  readonly share: number;
  readonly error: number;
}

export interface SlipLine {
  readonly kind: SlipOutcome['kind'];
  readonly size: string;
  readonly made: number;
  readonly found: number;
  readonly named: number;
  /** Larger than what a least-squares adjustment sees with 80 % power. */
  readonly revealable: number;
  readonly revealableFound: number;
}

export interface Tally {
  readonly seasons: number;
  readonly clean: { readonly tops: Share; readonly bottoms: Share; readonly holes: Share };
  readonly slipped: { readonly tops: Share; readonly bottoms: Share; readonly holes: Share };
  /** Medians over the seasons, metres. */
  readonly rms: {
    readonly solved: number;
    readonly slipped: number;
    readonly dense: number;
    readonly logger: number;
    readonly driller: number;
  };
  /** False alarms in 200 readings, and findings at breaks whose word was wrong, in all seasons. */
  readonly flags: { readonly clean: number; readonly slipped: number; readonly wrongWords: number };
  readonly slips: readonly SlipLine[];
  /** Slips of 10 cm and more above the detectable size, and above twice that size. */
  readonly revealable: { readonly made: number; readonly found: number };
  readonly plain: { readonly made: number; readonly found: number };
  readonly notSettled: number;
}

export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const n = sorted.length;
  return n % 2 === 1 ? sorted[(n - 1) / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
};

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** Share of all, and its standard error by seasons (ratio estimate). */
export const shareOf = (seasons: readonly Covered[]): Share => {
  const all = sum(seasons.map((season) => season.all));
  const share = sum(seasons.map((season) => season.inside)) / all;
  const squares = sum(seasons.map((season) => (season.inside - share * season.all) ** 2));
  return { share, error: Math.sqrt(squares) / all };
};

const LEAST: number = 0.095;
/** A piece under a wrong run moves no depth; only catcher marks tell of it. */
const movesDepths = (slip: SlipOutcome): boolean => slip.kind !== 'wrong run';
const isRevealable = (slip: SlipOutcome): boolean => Math.abs(slip.size) > slip.detectable;

const SIZES = [
  { name: 'below 9.5 cm', to: LEAST },
  { name: '10 cm', to: 0.105 },
  { name: '11 to 69 cm', to: 0.695 },
  { name: '70 cm and more', to: Number.POSITIVE_INFINITY },
] as const;
const KINDS: readonly SlipOutcome['kind'][] = [
  '10 cm',
  '1 m',
  'swapped digits',
  'doubled piece',
  'missing piece',
  'wrong run',
  'zero moved',
  'lost ice not logged',
];

const slipLines = (slips: readonly SlipOutcome[]): SlipLine[] =>
  KINDS.flatMap((kind) =>
    SIZES.flatMap(({ name, to }, i) => {
      const from = i === 0 ? 0 : SIZES[i - 1].to;
      const here = slips.filter(
        (slip) => slip.kind === kind && Math.abs(slip.size) >= from && Math.abs(slip.size) < to,
      );
      if (here.length === 0) return [];
      const seen = here.filter(isRevealable);
      return [
        {
          kind,
          size: name,
          made: here.length,
          found: here.filter((slip) => slip.found !== 'no').length,
          named: here.filter((slip) => slip.found === 'named').length,
          revealable: seen.length,
          revealableFound: seen.filter((slip) => slip.found !== 'no').length,
        },
      ];
    }),
  );

export const tally = (outcomes: readonly Outcome[]): Tally => {
  const readings = sum(outcomes.map((one) => one.readings));
  const slips = outcomes.flatMap((one) => one.slipped.slips);
  const counted = slips.filter((slip) => movesDepths(slip) && Math.abs(slip.size) >= LEAST);
  const found = (list: readonly SlipOutcome[]) => ({
    made: list.length,
    found: list.filter((slip) => slip.found !== 'no').length,
  });
  const shares = (which: 'clean' | 'slipped') => ({
    tops: shareOf(outcomes.map((one) => one[which].tops)),
    bottoms: shareOf(outcomes.map((one) => one[which].bottoms)),
    holes: shareOf(outcomes.map((one) => one[which].holes)),
  });
  const per200 = (flags: readonly number[], times = 1) => (200 * sum(flags)) / (times * readings);
  return {
    seasons: outcomes.length,
    clean: shares('clean'),
    slipped: shares('slipped'),
    rms: {
      solved: median(outcomes.map((one) => one.rms.solved)),
      slipped: median(outcomes.map((one) => one.slipped.rms)),
      dense: median(outcomes.map((one) => one.rms.dense)),
      logger: median(outcomes.map((one) => one.rms.logger)),
      driller: median(outcomes.map((one) => one.rms.driller)),
    },
    flags: {
      clean: per200(outcomes.map((one) => one.clean.falseFlags)),
      slipped: per200(outcomes.map((one) => one.slipped.falseFlags)),
      wrongWords: per200(
        outcomes.map((one) => one.clean.wrongWords + one.slipped.wrongWords),
        2,
      ),
    },
    slips: slipLines(slips),
    revealable: found(counted.filter(isRevealable)),
    plain: found(counted.filter((slip) => Math.abs(slip.size) > 2 * slip.detectable)),
    notSettled: sum(outcomes.map((one) => one.notSettled)),
  };
};
