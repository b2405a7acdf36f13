import { hit, type PanelInput, panel, type Theme, thumbSlack } from '@firnbook/drawing';
import { useMemo, useRef } from 'react';
import { number } from '../texts/numbers.ts';
import { pxPerMm, useBoxSize } from './box.ts';
import { useGrip } from './grip.ts';
import { Painted } from './painted.tsx';
import type { Stretch } from './places.ts';

interface PanelStripProps {
  readonly input: PanelInput;
  /** Scale, window and type of the core beside it. */
  readonly mmPerMetre: number;
  readonly window: Stretch;
  readonly type: number;
  readonly theme: Theme;
  readonly selected: string | null;
  /** Depth of the reading line; null where nothing is looked at. */
  readonly line: number | null;
  readonly onSelect: (id: string) => void;
}

/** A quantity beside the core. A pointer's shortcut: the keys of the core lead to the same ice. */
export function PanelStrip(props: PanelStripProps) {
  const { input, mmPerMetre, window, type, theme, selected, line, onSelect } = props;
  const box = useRef<HTMLDivElement>(null);
  const width = useBoxSize(box).width / pxPerMm;
  const picture = useMemo(
    () =>
      width > 8
        ? panel(input, {
            width,
            mmPerMetre,
            window: { from: window.from, to: window.to },
            type,
            selected,
            line,
            number,
          })
        : null,
    [input, width, mmPerMetre, window.from, window.to, type, selected, line],
  );
  const grip = useGrip({
    drag: null,
    tap: (x, y, byMouse) => {
      const thing = picture && hit(picture, x / pxPerMm, y / pxPerMm, byMouse ? 1.5 : thumbSlack);
      if (thing !== null) onSelect(thing);
    },
  });
  return (
    <div
      ref={box}
      className="core-axis-panel"
      role="img"
      aria-label={`${input.name}, ${input.unit}`}
      {...grip}
    >
      {picture !== null && <Painted picture={picture} theme={theme} className="core-axis-canvas" />}
    </div>
  );
}
