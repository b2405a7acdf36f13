import type { HoleView } from '@firnbook/campaign';
import { columnInput, coreColumn, themes } from '@firnbook/drawing';
import { useMemo } from 'react';
import { Painted } from '../axis/painted.tsx';
import type { BookHandle } from '../device/book.ts';
import { useTheme } from '../look/theme.ts';
import { number } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';

/** Millimetres. */
const width = 62;
const height = 62;
const type = 3.1;
/** Metres of ice shown above and below what is looked at. */
const around = 0.35;

/** The stretch of core around a thing, drawn small, with the thing marked. Nothing where it has no place. */
export function Stretch(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly thing: string;
}) {
  const { book, hole, thing } = props;
  const theme = themes[useTheme()];
  const depths = book.depths[hole.id] ?? null;
  const picture = useMemo(() => {
    const input = columnInput(hole, depths);
    const own = input.pieces.filter((piece) => piece.id === thing || piece.run === thing);
    const mark = input.marks.find((one) => one.thing === thing)?.depth;
    const top = own[0]?.top.value ?? mark;
    const bottom = own.at(-1)?.bottom.value ?? mark;
    if (top === undefined || bottom === undefined) return null;
    const window = { from: top - around, to: bottom + around };
    return coreColumn(input, {
      mmPerMetre: (height - 2.2 * type) / (window.to - window.from),
      window,
      width,
      type,
      selected: thing,
      number,
      say: (word, values) => t(`drawing.${word}`, values),
      show: { driller: false, uncertainty: false },
    });
  }, [hole, depths, thing]);
  if (picture === null) return null;
  return (
    <div className="stretch" role="img" aria-label={picture.title}>
      <Painted picture={picture} theme={theme} className="stretch-canvas" />
    </div>
  );
}
