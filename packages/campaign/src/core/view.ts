import { pieceName } from '../names.ts';
import { numberIn, numbersEver, readingsOf, thingView } from '../thing-view.ts';
import type { PieceHome, Thing } from '../thread.ts';
import type { PieceView } from '../view.ts';

/** A piece is named after its run, so it is renamed with it and keeps the old name as an alias. */
export function pieceView(thing: Thing, home: PieceHome): PieceView {
  const { run, letters } = home;
  const readings = readingsOf(thing);
  const number = numberIn({ readings }, 'number');
  const name = pieceName(letters.at(-1) ?? '?', home.number, number);
  const numbers = numbersEver(thing, 'number');
  const isNamedOnce = letters.length === 1 && numbers.length < 2 && home.numbersEver.length < 2;
  const aliases = isNamedOnce
    ? []
    : letters.flatMap((letter) =>
        home.numbersEver.flatMap((one) => numbers.map((own) => pieceName(letter, one, own))),
      );
  // Nobody else holds it yet, and there are tens of thousands: not copied.
  return Object.assign(thingView(thing, readings, { name, aliases }), { run, number: number ?? 0 });
}
