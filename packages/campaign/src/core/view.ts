import { pieceName } from '../names.ts';
import { type Group, numberIn, numbersEver, thingView } from '../thing-view.ts';
import type { PieceView } from '../view.ts';

/** What a piece's name is made of besides its own number. */
export interface PieceHome {
  /** Id of the run that it belongs to now. */
  readonly run: string;
  /** Letters that the hole has had, the present one last. */
  readonly letters: readonly string[];
  /** The run's number now. */
  readonly number: number | null;
  /** Every number of every run it was ever said to belong to. */
  readonly numbersEver: readonly number[];
}

/** A piece is named after its run, so it is renamed with it and keeps the old name as an alias. */
export function pieceView(group: Group, home: PieceHome): PieceView {
  const { run, letters } = home;
  const bare = thingView(group, (readings) => {
    const name = pieceName(letters.at(-1) ?? '?', home.number, numberIn({ readings }, 'number'));
    const numbers = numbersEver(group, 'number');
    if (letters.length === 1 && numbers.length < 2 && home.numbersEver.length < 2) return { name };
    const aliases = letters.flatMap((letter) =>
      home.numbersEver.flatMap((one) => numbers.map((number) => pieceName(letter, one, number))),
    );
    return { name, aliases };
  });
  // Nobody else holds it yet, and there are tens of thousands: not copied.
  return Object.assign(bare, { run, number: numberIn(bare, 'number') ?? 0 });
}
