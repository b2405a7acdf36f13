import { corePieces, lengthOn, lostAbove } from '../core/left-before.ts';
import { standingPieces, standingRuns } from '../find.ts';
import { type Sentence, sentence } from '../texts/sentence.ts';
import { numberIn, textIn } from '../thing-view.ts';
import type { DepthView, HoleView, RunView } from '../view.ts';
import { countedTwice } from './counted-twice.ts';
import { trayTapes } from './tray-tapes.ts';

/** Smaller differences between drilled and recovered are not worth a word. Common practice, no source. */
const WORTH_SAYING = 0.0095;

/** How a run's core meets the one before it, as far as there are words for it: a saw or a hand came later. */
const joints = ['fits', 'ground', 'loss', 'unsure'] as const;

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
      ? sentence('answer.run.logged', { name: run.name })
      : sentence('answer.run.drilled', { name: run.name, advance: { depth: advance } }),
  ];
  if (run.nothingRecovered && pieces.length === 0) said.push(sentence('answer.run.nothing'));
  if (pieces.length > 0) said.push(...coreSentences(hole, run, advance));
  const bottom = depths?.runs[run.id]?.holeBottom;
  if (bottom !== undefined)
    said.push(sentence('answer.run.bottom', { depth: { depth: bottom.value, sd: bottom.sd } }));
  // A run that brought nothing has no ice to fit.
  const before = standingRuns(hole)
    .filter((one) => one.number < run.number && corePieces(one).length > 0)
    .at(-1);
  const [first] = corePieces(run);
  const topBreak = first === undefined ? undefined : joints.find((one) => one === textIn(first, 'topBreak'));
  if (before !== undefined && topBreak !== undefined)
    said.push(sentence(`answer.run.${topBreak}`, { before: before.name }));
  const twice = hole.conflicts.find(({ kind, things }) => kind === 'same name' && things.includes(run.id));
  const counted = twice === undefined ? null : countedTwice(hole, twice);
  if (counted !== null) said.push(counted);
  const things = new Set([run.id, ...pieces.map((piece) => piece.id)]);
  const count = (depths?.findings ?? []).filter((finding) => things.has(finding.which)).length;
  if (count > 0) said.push(sentence('answer.run.look', { count }));
  return said;
}

function coreSentences(hole: HoleView, run: RunView, advance: number | null): readonly Sentence[] {
  const pieces = corePieces(run);
  if (pieces.length === 0) return [];
  const tape = trayTapes(hole).get(run.id);
  const lengths = pieces.map((piece) => lengthOn(tape, piece));
  const core = lengths.reduce<number>((sum, length) => sum + (length ?? 0), 0);
  const unmeasured = lengths.filter((length) => length === null).length;
  if (unmeasured > 0)
    return [sentence('answer.run.unmeasured', { core: { depth: core }, count: unmeasured })];
  const said: Sentence[] = [sentence('answer.run.core', { core: { depth: core }, count: pieces.length })];
  if (advance === null) return said;
  // Ice known to be lost was drilled too and is not left in the hole.
  const lost = pieces.reduce((sum, piece) => sum + lostAbove(piece), 0);
  const left = advance - core - lost;
  if (left > WORTH_SAYING) said.push(sentence('answer.run.left', { length: { length: left } }));
  else if (left < -WORTH_SAYING) said.push(sentence('answer.run.more', { length: { length: -left } }));
  else said.push(sentence('answer.run.closes'));
  return said;
}
