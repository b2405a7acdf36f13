import type { Shape } from '../shape.ts';
import { breakLines, breakSymbol, edgeLine, missing, seenGap } from './breaks.ts';
import { bubbles } from './bubbles.ts';
import { edgesOf } from './edges.ts';
import { type Frame, inSight } from './frame.ts';
import { isWhole } from './input.ts';

/** Pieces lower than this run together into one block where they touch: at that scale a break is a hair. */
const lowPiece = 0.7;
/** Metres that two fitting edges may stand apart. */
const fitPlay = 0.005;

/** The core itself: pieces, the breaks between them, and what is missing. */
export function ice(frame: Frame): readonly Shape[] {
  const shapes: Shape[] = [];
  const symbols: Shape[] = [];
  const { pieces } = frame.input;
  let block: { top: number; bottom: number } | null = null;
  let free = -Infinity;
  const endBlock = (): void => {
    if (block !== null) shapes.push(blockOf(frame, block.top, block.bottom));
    block = null;
  };
  for (let at = 0; at < pieces.length; at += 1) {
    const piece = pieces[at]!;
    const above = pieces[at - 1];
    if (!inSight(frame, above?.bottom.value ?? piece.top.value, piece.bottom.value)) continue;
    const [top, bottom] = [frame.y(piece.top.value), frame.y(piece.bottom.value)];
    const gap = above === undefined ? 0 : top - frame.y(above.bottom.value);
    if (bottom - top < lowPiece) {
      if (block !== null && gap < seenGap) block = { top: block.top, bottom };
      else {
        endBlock();
        block = { top, bottom };
      }
      if (above !== undefined && gap >= seenGap) shapes.push(flatGap(frame, top - gap, top, piece.id));
      continue;
    }
    endBlock();
    const edges = edgesOf(frame, above, piece, pieces[at + 1]);
    shapes.push({
      is: 'line',
      points: [...edges.top, ...[...edges.bottom].reverse()],
      close: true,
      fill: { cylinder: { x0: frame.core[0], x1: frame.core[1] } },
      stroke: { colour: 'ink-2', width: 0.12 },
      thing: piece.id,
    });
    if (frame.show.bubbles) shapes.push(...bubbles(frame, piece, edges.amplitude));
    // The millimetre of a fit is play between two edges; more is missing, whatever was said of the break.
    const play = isWhole(piece.topBreak) ? fitPlay * frame.options.mmPerMetre : seenGap;
    if (above !== undefined && gap >= Math.max(play, seenGap)) shapes.push(...missing(frame, edges, piece));
    shapes.push(...breakLines(edges, piece, above, gap));
    if (above !== undefined && top - free >= frame.type * 0.9) {
      const symbol = breakSymbol(frame, piece, top - gap / 2);
      if (symbol.length > 0) free = top;
      symbols.push(...symbol);
    }
    if (pieces[at + 1] === undefined) shapes.push(edgeLine(edges.bottom));
  }
  endBlock();
  return [...shapes, ...symbols];
}

function blockOf(frame: Frame, top: number, bottom: number): Shape {
  const [left, right] = frame.core;
  return {
    is: 'rect',
    x: left,
    y: top,
    w: right - left,
    h: bottom - top,
    fill: { cylinder: { x0: left, x1: right } },
  };
}

function flatGap(frame: Frame, top: number, bottom: number, thing: string): Shape {
  const [left, right] = frame.core;
  return {
    is: 'rect',
    x: left,
    y: top,
    w: right - left,
    h: bottom - top,
    fill: { hatch: 'ink-2', step: 0.8 },
    thing,
  };
}
