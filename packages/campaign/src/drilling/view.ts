import { runName } from '../names.ts';
import { numberIn, numbersEver, readingsOf, textIn, thingView } from '../thing-view.ts';
import type { Thing } from '../thread.ts';
import type { PieceView, RunView } from '../view.ts';

/**
 * @param letters letters that the hole has had, the present one last
 * @param pieces this run's pieces in order of number
 */
export function runView(thing: Thing, letters: readonly string[], pieces: readonly PieceView[]): RunView {
  const readings = readingsOf(thing);
  const number = numberIn({ readings }, 'number');
  const name = runName(letters.at(-1) ?? '?', number);
  const numbers = numbersEver(thing, 'number');
  const isNamedOnce = letters.length === 1 && numbers.length < 2;
  const aliases = isNamedOnce ? [] : letters.flatMap((letter) => numbers.map((own) => runName(letter, own)));
  return Object.assign(thingView(thing, readings, { name, aliases }), {
    number: number ?? 0,
    nothingRecovered: textIn({ readings }, 'recovered') === 'nothing',
    pieces,
  });
}
