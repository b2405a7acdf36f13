import { runName } from '../names.ts';
import { type Group, numberIn, numbersEver, textIn, thingView } from '../thing-view.ts';
import type { PieceView, RunView } from '../view.ts';

/**
 * @param letters letters that the hole has had, the present one last
 * @param pieces this run's pieces, in any order
 */
export function runView(group: Group, letters: readonly string[], pieces: readonly PieceView[]): RunView {
  const bare = thingView(group, (readings) => {
    const name = runName(letters.at(-1) ?? '?', numberIn({ readings }, 'number'));
    const numbers = numbersEver(group, 'number');
    if (letters.length === 1 && numbers.length < 2) return { name };
    return { name, aliases: letters.flatMap((letter) => numbers.map((number) => runName(letter, number))) };
  });
  return {
    ...bare,
    number: numberIn(bare, 'number') ?? 0,
    nothingRecovered: textIn(bare, 'recovered') === 'nothing',
    pieces: pieces.length < 2 ? pieces : [...pieces].sort((a, b) => a.number - b.number),
  };
}
