import type { DepthView, HoleView } from '@firnbook/campaign';
import {
  type ColumnOptions,
  columnInput,
  coreColumn,
  depthAt,
  headingHeight,
  hit,
  type PanelInput,
  type ThemeName,
  themes,
  thumbSlack,
} from '@firnbook/drawing';
import { type KeyboardEvent, memo, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { number } from '../texts/numbers.ts';
import './axis.css';
import { pxPerMm, useBoxSize } from './box.ts';
import { GoToDepth } from './go-to-depth.tsx';
import { useGrip } from './grip.ts';
import { Painted } from './painted.tsx';
import { PanelStrip } from './panel-strip.tsx';
import { listed, PieceList, spokenDepth } from './piece-list.tsx';
import {
  holeEnd,
  pieceAt,
  runPlace,
  type Stretch,
  settled,
  steppable,
  twoRuns,
  type Walk,
  walk,
} from './places.ts';
import { saveSvg } from './save-svg.ts';
import { useSlide } from './slide.ts';
import { Strip } from './strip.tsx';
import { type Say, sayEnglish } from './texts.ts';
import { useWheel } from './wheel.ts';

export interface CoreAxisProps {
  readonly hole: HoleView;
  /** Null until the first solution is there. */
  readonly depths: DepthView | null;
  /** Id of a piece or run. */
  readonly selected: string | null;
  /** Called with the id of a piece, run, sounding or the hole. */
  readonly onSelect: (id: string) => void;
  /** 'whole': the hole with a window, for a desk. 'two-runs': a field form, without motion. */
  readonly mode: 'whole' | 'two-runs';
  readonly theme: ThemeName;
  /** Quantities drawn beside the core, over the same depths at the same scale. */
  readonly panels?: readonly PanelInput[];
  /** Left out where another pair of buttons on the screen steps through the runs. */
  readonly steps?: boolean;
  /** Texts of the controls; English unless given. */
  readonly say?: Say;
  /** Texts inside the drawing; English unless given. */
  readonly sayInDrawing?: NonNullable<ColumnOptions['say']>;
}

/** Metres of ice that a window shows until the reader comes closer or goes farther. */
const usualMetres = 3.4;
const closest = 2000;

/**
 * The core as the way through the book: to scale, with solved depths; touch ice and it is selected. Drawn anew when
 * something that it shows has changed, and not with every key of the form beside it.
 */
export const CoreAxis = memo(function CoreAxis(props: CoreAxisProps) {
  const { hole, depths, selected, onSelect, mode, sayInDrawing } = props;
  const say = props.say ?? sayEnglish;
  const theme = themes[props.theme];
  const whole = mode === 'whole';
  const type = whole ? 3.3 : 3.8;
  const input = useMemo(() => columnInput(hole, depths), [hole, depths]);
  const shown = useSlide(input, whole);
  const box = useRef<HTMLDivElement>(null);
  const size = useBoxSize(box);
  const [width, height] = [size.width / pxPerMm, size.height / pxPerMm];
  const iceHeight = Math.max(20, height - headingHeight(type));
  const end = useMemo(() => holeEnd(input), [input]);
  const margins = { above: 2.4 * type, below: 4.2 * type };

  // Null follows the newest ice.
  const [view, setView] = useState<{ readonly from: number; readonly mmPerMetre: number } | null>(null);
  const [place, setPlace] = useState<number | null>(null);
  const runs = useMemo(() => steppable(input), [input]);
  const at = Math.min(place ?? runs.length - 1, runs.length - 1);

  const farthest = Math.max(0.01, (iceHeight - margins.above - margins.below) / Math.max(end, 0.5));
  const usual = Math.min(closest, Math.max(farthest, iceHeight / usualMetres));
  const mmPerMetre = whole
    ? (view?.mmPerMetre ?? usual)
    : twoRunScale(twoRuns(input, at), iceHeight, margins);
  const window: Stretch = whole
    ? settled(view?.from ?? Infinity, mmPerMetre, iceHeight, end, margins)
    : settled(twoRuns(input, at).from - margins.above / mmPerMetre, mmPerMetre, iceHeight, Infinity, margins);

  const known = width > 0 && height > 0;
  const picture = useMemo(
    () =>
      known
        ? coreColumn(shown, {
            mmPerMetre,
            window: { from: window.from, to: window.to },
            width,
            type,
            selected,
            number,
            show: { driller: width > type * 22, uncertainty: width > type * 12, runs: width > type * 14 },
            ...(sayInDrawing === undefined ? {} : { say: sayInDrawing }),
          })
        : null,
    [known, shown, mmPerMetre, window.from, window.to, width, type, selected, sayInDrawing],
  );

  /** At the last run the axis goes on to follow the newest. */
  const showRun = (run: number): void => setPlace(run >= runs.length - 1 ? null : run);
  const lookAt = (depth: number, scale = mmPerMetre): void =>
    setView({ from: depth - iceHeight / scale / 2, mmPerMetre: scale });

  // What is selected elsewhere comes into sight; what is in sight stays where it is.
  const chosen = input.pieces.find((piece) => piece.id === selected || piece.run === selected);
  const chosenPlace = runPlace(input, selected);
  const inSight = chosen !== undefined && chosen.bottom.value > window.from && chosen.top.value < window.to;
  const bring = useRef({ inSight, lookAt, showRun, chosen, chosenPlace });
  bring.current = { inSight, lookAt, showRun, chosen, chosenPlace };
  useEffect(() => {
    const now = bring.current;
    if (selected === null) return;
    if (now.chosenPlace >= 0) now.showRun(now.chosenPlace);
    if (now.chosen !== undefined && !now.inSight && known)
      now.lookAt((now.chosen.top.value + now.chosen.bottom.value) / 2);
  }, [selected, known]);

  const zoom = (factor: number, depth = (window.from + window.to) / 2): void => {
    const scale = Math.min(closest, Math.max(farthest, mmPerMetre * factor));
    setView({ from: depth - ((depth - window.from) * mmPerMetre) / scale, mmPerMetre: scale });
  };
  /** False at either end of the way. */
  const panTo = (from: number): boolean => {
    const next = settled(from, mmPerMetre, iceHeight, end, margins).from;
    if (Math.abs(next - window.from) < 1e-9) return false;
    setView({ from: next, mmPerMetre });
    return true;
  };
  useWheel(box, whole, {
    pan: (px) => panTo(window.from + px / pxPerMm / mmPerMetre),
    zoom: (factor, y) => zoom(factor, picture === null ? window.from : depthAt(picture, y / pxPerMm)),
  });

  const go = (way: Walk): void => {
    const piece = walk(input, selected, way);
    if (piece !== null) onSelect(piece.id);
  };
  const stepRun = (by: -1 | 1): void => {
    if (whole) go(by < 0 ? 'run up' : 'run down');
    else showRun(Math.max(Math.min(1, runs.length - 1), at + by));
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const way = event.ctrlKey || event.metaKey || event.altKey ? undefined : ways[event.key];
    if (way !== undefined) go(way);
    else if (whole && event.key === '+') zoom(1.5);
    else if (whole && event.key === '-') zoom(1 / 1.5);
    else return;
    event.preventDefault();
  };

  const dragFrom = useRef(0);
  const grip = useGrip({
    drag: whole
      ? (moved) => {
          if (moved === 'begin') dragFrom.current = window.from;
          else panTo(dragFrom.current - moved / pxPerMm / mmPerMetre);
        }
      : null,
    tap: (x, y, byMouse) => {
      const thing = picture && hit(picture, x / pxPerMm, y / pxPerMm, byMouse ? 1.5 : thumbSlack);
      if (thing !== null) onSelect(thing);
    },
  });

  const selectedPlace = chosen === undefined ? -1 : input.pieces.indexOf(chosen);
  const spoken =
    chosen === undefined
      ? input.pieces.length === 0
        ? say('noPieces')
        : (picture?.title ?? '')
      : say('piece', {
          name: chosen.name,
          top: spokenDepth(chosen.top, number),
          bottom: spokenDepth(chosen.bottom, number),
          break: say(chosen.topBreak),
        });
  const list = useMemo(
    () => ({ input, pieces: listed(input, { from: window.from, to: window.to }, whole) }),
    [input, window.from, window.to, whole],
  );
  // Hundreds of rows that are read aloud or not at all: after what is on the screen.
  const told = useDeferredValue(list);

  return (
    <section className="core-axis" data-mode={mode} aria-label={say('core', { hole: input.letter })}>
      <div className="core-axis-tools">
        {props.steps !== false && (
          <>
            <button type="button" disabled={whole ? runs.length < 2 : at <= 1} onClick={() => stepRun(-1)}>
              {say('previousRun')}
            </button>
            <button
              type="button"
              disabled={whole ? runs.length < 2 : at >= runs.length - 1}
              onClick={() => stepRun(1)}
            >
              {say('nextRun')}
            </button>
          </>
        )}
        {whole && (
          <>
            <button type="button" onClick={() => zoom(1.5)} disabled={mmPerMetre >= closest}>
              {say('closer')}
            </button>
            <button type="button" onClick={() => zoom(1 / 1.5)} disabled={mmPerMetre <= farthest * 1.001}>
              {say('farther')}
            </button>
          </>
        )}
        <GoToDepth
          end={end}
          say={say}
          onGo={(depth) => {
            if (whole) lookAt(depth);
            const piece = pieceAt(input, depth);
            if (piece === null) return;
            const itsRun = runPlace(input, piece.id);
            if (itsRun >= 0) showRun(itsRun);
            onSelect(piece.id);
          }}
        />
      </div>
      {depths === null && input.runs.length > 0 && <p className="core-axis-note">{say('notSolved')}</p>}
      <div className="core-axis-view">
        {whole && window.to - window.from < end && height > 0 && (
          <Strip
            input={input}
            height={height}
            window={window}
            theme={theme}
            onGo={(depth) => lookAt(depth)}
          />
        )}
        <div
          ref={box}
          className="core-axis-window"
          role="slider"
          tabIndex={0}
          aria-orientation="vertical"
          aria-label={say('core', { hole: input.letter })}
          aria-valuemin={input.pieces.length === 0 ? 0 : 1}
          aria-valuemax={input.pieces.length}
          aria-valuenow={selectedPlace < 0 ? input.pieces.length : selectedPlace + 1}
          aria-valuetext={spoken}
          onKeyDown={onKeyDown}
          {...grip}
        >
          {picture !== null && <Painted picture={picture} theme={theme} className="core-axis-canvas" />}
        </div>
        {known &&
          props.panels?.map((one) => (
            <PanelStrip
              key={one.name}
              input={one}
              mmPerMetre={mmPerMetre}
              window={window}
              type={type}
              theme={theme}
              selected={selected}
              line={chosen === undefined ? null : (chosen.top.value + chosen.bottom.value) / 2}
              onSelect={onSelect}
            />
          ))}
      </div>
      {whole && picture !== null && (
        <button
          type="button"
          className="link core-axis-save"
          onClick={() =>
            saveSvg(
              picture,
              theme,
              `core-${input.letter}-${window.from.toFixed(2)}-${window.to.toFixed(2)}-m.svg`,
            )
          }
        >
          {say('save')}
        </button>
      )}
      <div className="core-axis-spoken">
        <PieceList input={told.input} pieces={told.pieces} selected={selected} say={say} number={number} />
      </div>
    </section>
  );
});

const ways: Readonly<Record<string, Walk>> = {
  ArrowUp: 'piece up',
  ArrowDown: 'piece down',
  PageUp: 'run up',
  PageDown: 'run down',
  Home: 'top',
  End: 'bottom',
};

/** Two runs fill the height between the margins; a short one is not blown up beyond twice its size. */
function twoRunScale(
  stretch: Stretch,
  iceHeight: number,
  margins: { readonly above: number; readonly below: number },
): number {
  return Math.min(closest, (iceHeight - margins.above - margins.below) / (stretch.to - stretch.from));
}
