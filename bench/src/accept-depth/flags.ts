/** Which of the solver's findings are slips that were made, and which are false alarms. */
import type { Finding } from '@firnbook/science/depth';
import type { Season, TrueSlip } from '@firnbook/science/simulate-season';
import type { Shift } from './equations.ts';
import { coreOf, endOf, soundingOf, startOf } from './moments.ts';

/** A finding counts for a slip when it stands this many runs from it or nearer: slips are 5 runs apart. */
const NEAR = 2;
/** Ice that was lost, and of which nobody wrote: a wrong word for a break, made by the simulator's crew. */
const UNSAID = 0.02;

interface Judged {
  readonly slip: TrueSlip;
  /** The very reading was named; a reading near by was; none. */
  readonly found: 'named' | 'near' | 'no';
}

interface JudgedFlags {
  readonly slips: readonly Judged[];
  readonly falseFlags: readonly Finding[];
  /** Findings at a break whose word was wrong, and at which ice of 2 cm and more was lost. */
  readonly wrongWords: number;
}

export const judgeFlags = (
  season: Season,
  slips: readonly TrueSlip[],
  findings: readonly Finding[],
): JudgedFlags => {
  const { readings, truth } = season;
  const place = new Map(readings.runs.map((run, i) => [run.id, i]));
  const runOf = new Map<string, string>();
  for (const piece of readings.pieces) runOf.set(piece.id, piece.run);
  for (const sounding of readings.soundings) runOf.set(sounding.id, sounding.afterRun);
  for (const check of readings.cableChecks ?? []) runOf.set(check.id, check.afterRun);
  for (const zero of readings.zeros ?? []) runOf.set(zero.id, zero.fromRun);
  const placeOf = ({ what, which }: Finding): number =>
    place.get(what === 'run' ? which : (runOf.get(original(which)) as string)) as number;
  const breaks = new Map(readings.pieces.map((piece) => [piece.id, piece.topBreak]));
  const unsaid = truth.pieceIds.flatMap((id, i) =>
    breaks.get(id) === 'fits' && truth.gap[i] >= UNSAID ? [place.get(runOf.get(id) as string) as number] : [],
  );
  const isNear = (at: number) => (finding: Finding) => Math.abs(placeOf(finding) - at) <= NEAR;
  const judged = slips.map((slip): Judged => {
    const near = findings.filter(isNear(slip.at));
    const isNamed = near.some(({ which, what }) => what === slip.what && sameReading(slip, which));
    return { slip, found: isNamed ? 'named' : near.length > 0 ? 'near' : 'no' };
  });
  const others = findings.filter((finding) => !slips.some((slip) => isNear(slip.at)(finding)));
  const isWord = (finding: Finding) => finding.what === 'piece' && unsaid.some((at) => isNear(at)(finding));
  return {
    slips: judged,
    falseFlags: others.filter((finding) => !isWord(finding)),
    wrongWords: others.filter(isWord).length,
  };
};

/** A piece that was logged twice has its own name, and this. */
const original = (id: string): string => id.replace(/ again$/, '');

const runOfPiece = (id: string): string => id.split('-')[0];

/** Of a doubled piece either of the two will do; of a missing one any piece of its run; of exchanged runs either. */
const sameReading = (slip: TrueSlip, which: string): boolean => {
  if (slip.kind === 'doubled piece') return original(slip.which) === original(which);
  if (slip.kind === 'missing piece') return runOfPiece(slip.which) === runOfPiece(which);
  return slip.which === which || (slip.field === 'number' && slip.otherRun === which);
};

/** By how much each reading moves when the slip's size is 1 m. */
export const shiftsOf = ({ readings }: Season, slip: TrueSlip): Shift[] => {
  const { runs, pieces } = readings;
  const run = runs[slip.at].id;
  const counters = (id: string, by: number) => [
    { reading: startOf(id), by },
    { reading: endOf(id), by },
  ];
  if (slip.kind === 'zero moved') return runs.slice(slip.at).flatMap(({ id }) => counters(id, 1));
  if (slip.field === 'number') return [...counters(run, 1), ...counters(slip.otherRun as string, -1)];
  if (slip.field === 'run') {
    const other = pieces.find((piece) => piece.run === slip.otherRun && piece.outOfPlace !== true);
    return [
      { reading: coreOf(slip.which), by: -1 },
      ...(other === undefined ? [] : [{ reading: coreOf(other.id), by: 1 }]),
    ];
  }
  if (slip.what === 'piece') return [{ reading: coreOf(original(slip.which)), by: 1 }];
  if (slip.what === 'sounding') return [{ reading: soundingOf(slip.which), by: 1 }];
  return [{ reading: slip.field === 'from' ? startOf(run) : endOf(run), by: 1 }];
};
