import {
  type ColumnInput,
  coreColumn,
  depthAt,
  type Picture,
  stripOnly,
  type Theme,
} from '@firnbook/drawing';
import { type PointerEvent, useMemo } from 'react';
import { pxPerMm } from './box.ts';
import { Painted } from './painted.tsx';
import { holeEnd, type Stretch } from './places.ts';

interface StripProps {
  readonly input: ColumnInput;
  /** Millimetres. */
  readonly height: number;
  readonly window: Stretch;
  readonly theme: Theme;
  readonly onGo: (depth: number) => void;
}

const width = 17;
const margin = 3;

/** The whole hole at the side, with the window on it. A pointer's shortcut; keys and the depth field do the same. */
export function Strip({ input, height, window, theme, onGo }: StripProps) {
  const hole = useMemo(() => {
    const end = holeEnd(input);
    const mmPerMetre = Math.max(0.001, (height - 2 * margin) / end);
    const spare = margin / mmPerMetre;
    return coreColumn(input, {
      mmPerMetre,
      width,
      show: stripOnly,
      window: { from: -spare, to: end + spare },
    });
  }, [input, height]);
  const y = (depth: number): number => (depth - hole.scale.from) * hole.scale.mmPerMetre;
  const [top, bottom] = [Math.max(0.4, y(window.from)), Math.min(hole.height - 0.4, y(window.to))];
  const picture: Picture = {
    ...hole,
    shapes: [
      ...hole.shapes,
      {
        is: 'rect',
        x: 0.5,
        y: top,
        w: 11,
        h: Math.max(1.2, bottom - top),
        stroke: { colour: 'act', width: 0.7 },
      },
    ],
  };
  const go = (event: PointerEvent): void => {
    const corner = event.currentTarget.getBoundingClientRect();
    onGo(depthAt(hole, (event.clientY - corner.top) / pxPerMm));
  };
  return (
    <div
      className="core-axis-strip"
      aria-hidden="true"
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        go(event);
      }}
      onPointerMove={(event) => {
        if ((event.buttons & 1) === 1) go(event);
      }}
    >
      <Painted picture={picture} theme={theme} className="core-axis-canvas" />
    </div>
  );
}
