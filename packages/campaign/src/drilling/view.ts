import { runName } from '../names.ts';
import { type Group, numberIn, numbersEver, textIn, thingView } from '../thing-view.ts';
import type { PieceView, RunView } from '../view.ts';

/**
 * @param letters letters that the hole has had, the present one last
 * @param pieces this run's pieces, in any order
 */
export function runView(group: Group, letters: readonly string[], pieces: readonly PieceView[]): RunView {
  const bare = thingView(group, '');
  const number = numberIn(bare, 'number');
  const name = runName(letters.at(-1) ?? '?', number);
  const aliases = letters.flatMap((letter) =>
    numbersEver(group, 'number').map((one) => runName(letter, one)),
  );
  return {
    ...bare,
    name,
    aliases: [...new Set(aliases)].filter((alias) => alias !== name),
    number: number ?? 0,
    nothingRecovered: textIn(bare, 'recovered') === 'nothing',
    pieces: [...pieces].sort((a, b) => a.number - b.number),
  };
}
