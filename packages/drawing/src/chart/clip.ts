type Point = readonly [x: number, y: number];

/** What a line is cut to, millimetres. */
export interface Window {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The stretches of a line that lie in the window; a point that is no number ends one. */
export function clipped(line: readonly Point[], window: Window): readonly (readonly Point[])[] {
  const stretches: Point[][] = [];
  let last: Point | undefined;
  for (const [at, to] of line.entries()) {
    const from = line[at - 1];
    const inside = from === undefined ? null : part(from, to, window);
    if (inside === null) {
      last = undefined;
      continue;
    }
    const [begin, end] = inside;
    if (last !== undefined && begin[0] === last[0] && begin[1] === last[1]) stretches.at(-1)?.push(end);
    else stretches.push([begin, end]);
    last = end;
  }
  return stretches;
}

/** The part of a straight line that lies in the window (Liang & Barsky 1984); null where none does. */
function part(from: Point, to: Point, window: Window): readonly [Point, Point] | null {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  if (!Number.isFinite(dx) || !Number.isFinite(dy)) return null;
  let [enters, leaves] = [0, 1];
  for (const [step, room] of [
    [-dx, from[0] - window.left],
    [dx, window.right - from[0]],
    [-dy, from[1] - window.top],
    [dy, window.bottom - from[1]],
  ] as const) {
    if (step === 0 && room < 0) return null;
    if (step < 0) enters = Math.max(enters, room / step);
    if (step > 0) leaves = Math.min(leaves, room / step);
  }
  if (enters > leaves) return null;
  const at = (share: number): Point => [from[0] + share * dx, from[1] + share * dy];
  return [enters === 0 ? from : at(enters), leaves === 1 ? to : at(leaves)];
}
