import { standingPieces, standingRuns } from '../find.ts';
import { numberIn, textIn } from '../thing-view.ts';
import type { DepthView, HoleView, RunView } from '../view.ts';

/**
 * One sentence of the answer to a run, as data: a catalogue puts it into the crew's language. Numbers are metres
 * (`length`, `advance`, `core`, `depth`, `sd`) or counts (`pieces`); `name` and `before` are names of runs.
 */
export type Sentence =
  | { readonly key: 'run.drilled'; readonly values: { readonly name: string; readonly advance: number } }
  | { readonly key: 'run.logged'; readonly values: { readonly name: string } }
  | { readonly key: 'run.nothing'; readonly values: Record<string, never> }
  | { readonly key: 'run.core'; readonly values: { readonly core: number; readonly pieces: number } }
  | { readonly key: 'run.closes'; readonly values: Record<string, never> }
  | { readonly key: 'run.left'; readonly values: { readonly length: number } }
  | { readonly key: 'run.more'; readonly values: { readonly length: number } }
  | { readonly key: 'run.bottom'; readonly values: { readonly depth: number; readonly sd: number } }
  | { readonly key: 'run.fits' | 'run.loss' | 'run.unsure'; readonly values: { readonly before: string } }
  | { readonly key: 'run.look'; readonly values: { readonly count: number } };

/** Smaller differences between drilled and recovered are not worth a word. Common practice, no source. */
const WORTH_SAYING = 0.0095;

/**
 * The answer to a run in sentences that the crew can read to each other: "Run B-R034: 0.87 m drilled, 0.84 m of
 * core: 3 cm left in the hole, expect it next. Solved bottom 29.48 m ± 3 cm. Fits B-R033."
 *
 * @param depths null while the hole has not been solved with this run's readings
 * @param run one of the hole's runs
 */
export function runSentences(hole: HoleView, depths: DepthView | null, run: RunView): readonly Sentence[] {
  const from = numberIn(run, 'from');
  const to = numberIn(run, 'to');
  const advance = from === null || to === null ? null : to - from;
  const pieces = standingPieces(run);
  const said: Sentence[] = [
    advance === null
      ? { key: 'run.logged', values: { name: run.name } }
      : { key: 'run.drilled', values: { name: run.name, advance } },
  ];
  if (run.nothingRecovered && pieces.length === 0) said.push({ key: 'run.nothing', values: {} });
  if (pieces.length > 0) said.push(...coreSentences(run, advance));
  const bottom = depths?.runs[run.id]?.holeBottom;
  if (bottom !== undefined) said.push({ key: 'run.bottom', values: { depth: bottom.value, sd: bottom.sd } });
  // A run that brought nothing has no ice to fit.
  const before = standingRuns(hole)
    .filter((one) => one.number < run.number && standingPieces(one).length > 0)
    .at(-1);
  const topBreak = pieces[0] === undefined ? '' : textIn(pieces[0], 'topBreak');
  if (before !== undefined && (topBreak === 'fits' || topBreak === 'loss' || topBreak === 'unsure'))
    said.push({ key: `run.${topBreak}`, values: { before: before.name } });
  const things = new Set([run.id, ...pieces.map((piece) => piece.id)]);
  const count = (depths?.findings ?? []).filter((finding) => things.has(finding.which)).length;
  if (count > 0) said.push({ key: 'run.look', values: { count } });
  return said;
}

function coreSentences(run: RunView, advance: number | null): readonly Sentence[] {
  const pieces = standingPieces(run);
  const core = pieces.reduce((sum, piece) => sum + (numberIn(piece, 'length') ?? 0), 0);
  const said: Sentence[] = [{ key: 'run.core', values: { core, pieces: pieces.length } }];
  if (advance === null || pieces.some((piece) => numberIn(piece, 'length') === null)) return said;
  // Ice known to be lost was drilled too and is not left in the hole.
  const lost = pieces.reduce(
    (sum, piece) => sum + (textIn(piece, 'topBreak') === 'loss' ? (numberIn(piece, 'loss') ?? 0) : 0),
    0,
  );
  const left = advance - core - lost;
  if (left > WORTH_SAYING) said.push({ key: 'run.left', values: { length: left } });
  else if (left < -WORTH_SAYING) said.push({ key: 'run.more', values: { length: -left } });
  else said.push({ key: 'run.closes', values: {} });
  return said;
}
