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
  readonly numbersEver: readonly (number | null)[];
}

/** A piece is named after its run, so it is renamed with it and keeps the old name as an alias. */
export function pieceView(group: Group, home: PieceHome): PieceView {
  const bare = thingView(group, '');
  const number = numberIn(bare, 'number');
  const name = pieceName(home.letters.at(-1) ?? '?', home.number, number);
  const aliases = home.letters.flatMap((letter) =>
    home.numbersEver.flatMap((run) =>
      numbersEver(group, 'number').map((piece) => pieceName(letter, run, piece)),
    ),
  );
  return {
    ...bare,
    name,
    aliases: [...new Set(aliases)].filter((alias) => alias !== name),
    run: home.run,
    number: number ?? 0,
  };
}
