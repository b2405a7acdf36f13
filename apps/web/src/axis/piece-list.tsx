import { type ColumnInput, type ColumnPiece, depthDecimals, spread } from '@firnbook/drawing';
import { memo } from 'react';
import type { Stretch } from './places.ts';
import type { Say } from './texts.ts';

type Write = (value: number, decimals: number) => string;

/** "29.48 m ± 3 cm". */
export function spokenDepth(depth: ColumnPiece['top'], number: Write): string {
  return `${number(depth.value, depthDecimals(depth.sd))} m ± ${spread(depth.sd, number)}`;
}

/** A longer list would slow the page; then only what is near the window is listed. */
const longestList = 600;

/** Pieces to list: those in the window; all of them where the whole hole is shown and they are not too many. */
export function listed(input: ColumnInput, window: Stretch, whole: boolean): readonly ColumnPiece[] {
  if (whole && input.pieces.length <= longestList) return input.pieces;
  return input.pieces
    .filter((piece) => piece.bottom.value >= window.from && piece.top.value <= window.to)
    .slice(0, longestList);
}

interface PieceListProps {
  readonly input: ColumnInput;
  readonly pieces: readonly ColumnPiece[];
  readonly selected: string | null;
  readonly say: Say;
  readonly number: Write;
}

/** What the drawing shows, as a table to be read aloud. */
export const PieceList = memo(function PieceList({ input, pieces, selected, say, number }: PieceListProps) {
  const [first, last] = [pieces[0], pieces.at(-1)];
  const caption =
    pieces.length === input.pieces.length || first === undefined || last === undefined
      ? say('list', { hole: input.letter })
      : say('listPart', {
          hole: input.letter,
          from: number(first.top.value, 2),
          to: number(last.bottom.value, 2),
        });
  const needed = new Set(input.marks.map((mark) => mark.thing));
  return (
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{say('columnPiece')}</th>
          <th scope="col">{say('columnTop')}</th>
          <th scope="col">{say('columnBottom')}</th>
          <th scope="col">{say('columnBreak')}</th>
        </tr>
      </thead>
      <tbody>
        {pieces.map((piece) => (
          <Row
            key={piece.id}
            piece={piece}
            isSelected={piece.id === selected}
            isNeeded={needed.has(piece.id)}
            say={say}
            number={number}
          />
        ))}
      </tbody>
    </table>
  );
});

interface RowProps {
  readonly piece: ColumnPiece;
  readonly isSelected: boolean;
  readonly isNeeded: boolean;
  readonly say: Say;
  readonly number: Write;
}

/** One by one, so that a hand that comes in between need not wait for hundreds of them. */
const Row = memo(function Row({ piece, isSelected, isNeeded, say, number }: RowProps) {
  return (
    <tr data-piece={piece.id} aria-current={isSelected ? 'true' : undefined}>
      <th scope="row">{piece.name}</th>
      <td data-top={piece.top.value} data-sd={piece.top.sd}>
        {spokenDepth(piece.top, number)}
      </td>
      <td data-bottom={piece.bottom.value} data-sd={piece.bottom.sd}>
        {spokenDepth(piece.bottom, number)}
      </td>
      <td>
        {say(piece.topBreak)}
        {isNeeded ? `; ${say('needed')}` : ''}
      </td>
    </tr>
  );
});
