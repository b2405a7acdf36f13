import type { HoleView, ThingView } from '@firnbook/campaign';
import { columnInput, type SpliceRecord, type SpliceTie, spliceColumns, themes } from '@firnbook/drawing';
import { useMemo, useRef, useState } from 'react';
import { pxPerMm, useBoxSize } from '../axis/box.ts';
import { Painted } from '../axis/painted.tsx';
import type { BookHandle } from '../device/book.ts';
import { useTheme } from '../look/theme.ts';
import { nameHere } from '../texts/names.ts';
import { metres, number, shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';

/** What can be joined; `hole` where it is one. */
export interface SpliceThing {
  readonly thing: ThingView;
  readonly hole: HoleView | null;
}

/** A matched layer: its depths in both records, and how far the splice leaves it off, metres. */
export interface TiedLayer {
  readonly tie: SpliceTie;
  readonly of: number;
  readonly on: number;
  readonly off: number;
}

/** Its ice and layers in its own depths; a pit or a hand-augered top is one piece of ice from top to bottom. */
export function recordOf(book: BookHandle, { thing, hole }: SpliceThing, offset: number): SpliceRecord {
  const own = { id: thing.id, name: nameHere(thing), offset, sd: 0 };
  if (hole === null) {
    const top = thing.readings.from?.value ?? 0;
    const bottom = thing.readings.to?.value ?? thing.readings.depth?.value ?? top;
    return { ...own, ice: bottom > top ? [{ top, bottom }] : [], features: [] };
  }
  const input = columnInput(hole, book.depths[hole.id] ?? null);
  return {
    ...own,
    ice: input.pieces.map((piece) => ({ top: piece.top.value, bottom: piece.bottom.value })),
    features: input.features.filter((one) => one.what === 'dust' || one.what === 'melt layer'),
  };
}

/** Middle of a layer in its record's own depths; null where it is not there. */
export function middleOf(record: SpliceRecord | undefined, feature: string): number | null {
  const found = record?.features.find((one) => one.id === feature);
  return found ? (found.top + found.bottom) / 2 : null;
}

/** Metres of depth that are shown: the closest that millimetres can be told, and the farthest. */
const heights = [0.4, 1, 4, 20, 120] as const;
const usual = 1;

/** The two records, near one matched layer at a time; buttons lead from layer to layer, closer and farther. */
export function SplicePicture(props: {
  readonly records: readonly SpliceRecord[];
  readonly selected: string;
  readonly pairs: readonly TiedLayer[];
  readonly title: string;
}) {
  const { records, selected, pairs, title } = props;
  const box = useRef<HTMLDivElement>(null);
  const width = useBoxSize(box).width / pxPerMm;
  const theme = themes[useTheme()];
  const [at, setAt] = useState(0);
  const [zoom, setZoom] = useState<number>(usual);
  const place = Math.min(at, Math.max(0, pairs.length - 1));
  const layer = pairs[place];
  const high = heights[zoom] ?? heights[usual];
  const middle = layer ? layer.on : high / 2 - 0.1 * high;
  const picture = useMemo(
    () =>
      width < 40
        ? null
        : spliceColumns(
            records,
            pairs.map(({ tie }) => tie),
            {
              width,
              height: 100,
              window: { from: middle - high / 2, to: middle + high / 2 },
              selected,
              number,
              title,
            },
          ),
    [records, pairs, width, middle, high, selected, title],
  );
  return (
    <>
      <div className="splice-steps">
        <button type="button" disabled={place <= 0} onClick={() => setAt(place - 1)}>
          {t('splices.layer.before')}
        </button>
        <button type="button" disabled={place >= pairs.length - 1} onClick={() => setAt(place + 1)}>
          {t('splices.layer.next')}
        </button>
        <button type="button" disabled={zoom <= 0} onClick={() => setZoom(zoom - 1)}>
          {t('axis.closer')}
        </button>
        <button type="button" disabled={zoom >= heights.length - 1} onClick={() => setZoom(zoom + 1)}>
          {t('axis.farther')}
        </button>
      </div>
      <p role="status" className="splice-at">
        {layer
          ? t('splices.layer', {
              number: place + 1,
              of: pairs.length,
              depth: metres(layer.on),
              off: shortLength(Math.abs(layer.off)),
              way: t(layer.off > 0 ? 'splices.deeper' : 'splices.shallower'),
            })
          : t('splices.no.layer')}
      </p>
      <div ref={box} className="splice-picture" role="img" aria-label={title}>
        {picture === null ? null : <Painted picture={picture} theme={theme} className="levels-canvas" />}
      </div>
    </>
  );
}

/** How well the depth of a layer is known, metres: that of its piece's top. 0 where nothing is solved. */
export function sdOf(book: BookHandle, { hole }: SpliceThing, feature: string): number {
  const depths = hole === null ? undefined : book.depths[hole.id];
  const piece = hole?.others.feature?.find((one) => one.id === feature)?.readings.piece?.text ?? '';
  return depths?.pieces[piece]?.top.sd ?? 0;
}
