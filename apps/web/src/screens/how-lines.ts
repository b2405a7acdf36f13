import { type DepthView, type HoleView, isCalled, type PieceView, type RunView } from '@firnbook/campaign';
import type { Uncertain } from '../texts/numbers.ts';
import { metresOf, standing } from './hole.ts';

/** One equation of the adjustment with this ice's numbers in it, and what is left over between its two sides. */
export interface HowLine {
  readonly key:
    | 'how.line.to'
    | 'how.line.from'
    | 'how.line.length'
    | 'how.line.gap'
    | 'how.line.stub'
    | 'how.line.sounding';
  /** Metres. */
  readonly rest: number;
  readonly names: Readonly<Record<string, string>>;
  readonly depths: Readonly<Record<string, Uncertain>>;
  readonly readings: Readonly<Record<string, string>>;
}

/**
 * The equations of docs/method/depth.md that touch a run and, where one is given, a piece: reading or solved depth
 * less what it is held against. An equation whose readings or solution are not there is left out.
 */
export function howLines(
  hole: HoleView,
  run: RunView,
  piece: PieceView | undefined,
  view: DepthView,
): readonly HowLine[] {
  const lines: HowLine[] = [];
  const add = (
    key: HowLine['key'],
    rest: number,
    names: HowLine['names'],
    depths: HowLine['depths'],
    readings: HowLine['readings'],
  ): void => {
    lines.push({ key, rest, names, depths, readings });
  };
  const runs = standing(hole.runs);
  const bottom = view.runs[run.id]?.holeBottom;
  const earlier = runs[runs.findIndex((one) => one.id === run.id) - 1];
  const bottomBefore = earlier ? view.runs[earlier.id]?.holeBottom : undefined;
  const [from, to] = [metresOf(run, 'from'), metresOf(run, 'to')];
  const name = run.name;

  if (from !== null && earlier && bottomBefore)
    add(
      'how.line.from',
      from - bottomBefore.value,
      { name, before: earlier.name },
      { bottom: bottomBefore },
      { from: run.readings.from?.text ?? '' },
    );
  if (to !== null && bottom)
    add('how.line.to', to - bottom.value, { name }, { bottom }, { to: run.readings.to?.text ?? '' });

  const cored = runs.flatMap((one) => standing(one.pieces));
  const ice = piece ? view.pieces[piece.id] : undefined;
  if (piece && ice) {
    const above = cored[cored.findIndex((one) => one.id === piece.id) - 1];
    const bottomAbove = above ? view.pieces[above.id]?.bottom : undefined;
    if (above && bottomAbove)
      add(
        'how.line.gap',
        ice.top.value - bottomAbove.value,
        { name: piece.name, above: above.name },
        { top: ice.top, bottom: bottomAbove },
        {},
      );
    const long = metresOf(piece, 'length');
    if (long !== null)
      add(
        'how.line.length',
        ice.bottom.value - ice.top.value - long,
        { name: piece.name },
        { top: ice.top, bottom: ice.bottom },
        { length: piece.readings.length?.text ?? '' },
      );
  }
  const lowest = standing(run.pieces).at(-1);
  const core = lowest ? view.pieces[lowest.id]?.bottom : undefined;
  if (lowest && core && bottom)
    add('how.line.stub', bottom.value - core.value, { name, last: lowest.name }, { bottom, core }, {});
  for (const sounding of standing(hole.soundings)) {
    const said = metresOf(sounding, 'depth');
    if (!isCalled(run, sounding.readings.afterRun?.text ?? '') || said === null || !bottom) continue;
    add(
      'how.line.sounding',
      said - bottom.value,
      { name },
      { bottom },
      { depth: sounding.readings.depth?.text ?? '' },
    );
  }
  return lines;
}
