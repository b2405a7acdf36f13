import type { Explained } from './explain.ts';
import type { Job } from './model.ts';
import { slipsOf } from './slips.ts';
import type { Finding } from './solution.ts';

/** No fill, stub or gap explains as much, and no run is longer. Metres. */
const GROSS = 1.5;
const LONGEST = 3;
/** How much more than its run's way a piece must measure. */
const TOO_LONG = 1;
/** Starts and ends that follow each other, and a slip that is named. */
const FOLLOWS = 0.5;
const NAMED = 0.3;
const BACK = -0.1;

/**
 * Readings that contradict their neighbours so grossly that nothing but a slip explains them: left out before the first
 * sweep, where a fill of metres would teach a wrong mean of all fills and bend the whole hole. A zero that moved is
 * none: after it starts and ends go on together, and a run holds what it drilled itself.
 */
export const gross = ({ o, rows, lengths: l }: Job): Explained[] => {
  const out: Explained[] = [];
  let ended: number | undefined = 0;
  let cored: number | undefined = 0;
  for (let r = 1; r <= o.runs.length; r++) {
    const { id, from, to } = o.runs[r - 1];
    const next = o.runs[r]?.from;
    const row = rows.counter[r];
    let end = to;
    if (from !== undefined && to !== undefined && ended !== undefined) {
      if (isRun(to - ended)) {
        if (Math.abs(from - ended) > GROSS)
          out.push({
            ...found({ what: 'run', which: id, field: 'from' }, from, from - ended, 2),
            opening: { kind: 'from', row },
            run: r,
          });
      } else if (
        next !== undefined &&
        Math.abs(from - ended) < FOLLOWS &&
        isRun(next - from) &&
        Math.abs(to - next) > GROSS
      ) {
        out.push({
          ...found({ what: 'run', which: id, field: 'to' }, to, to - next, 2),
          opening: { kind: 'to', row },
          run: r,
        });
        end = next;
      }
    }
    if (o.first[r + 1] > o.first[r]) {
      const way =
        end === undefined || cored === undefined
          ? Number.POSITIVE_INFINITY
          : Math.max(end - cored, from === undefined ? 0 : end - from);
      for (let i = o.first[r]; i < o.first[r + 1]; i++) {
        const length = l.value[i];
        // a length from mass, or several that agree, is no slip of one reading
        if (l.tape[i] < 0 || !(length > way + TOO_LONG)) continue;
        out.push({
          ...found(
            { what: 'piece', which: o.pieces[i].id, field: 'length' },
            length / l.reduction[i],
            length - way,
            3,
          ),
          opening: { kind: 'way', row: rows.last[r] },
          run: r,
          piece: i,
        });
      }
      cored = end;
    }
    ended = end;
  }
  return out;
};

const isRun = (advance: number): boolean => advance > BACK && advance < LONGEST;

/** The finding, its size as rough as the neighbours give it; settled when the hole is solved without the reading. */
const found = (
  at: Pick<Finding, 'what' | 'which' | 'field'>,
  reading: number,
  size: number,
  decimals: number,
): Pick<Explained, 'finding'> => {
  const [best] = slipsOf(reading, decimals, 0)
    .filter((slip) => Math.abs(slip.size - size) < NAMED)
    .sort((a, b) => Math.abs(a.size - size) - Math.abs(b.size - size));
  return {
    finding: {
      ...at,
      size,
      likely: best?.slip ?? 'no known slip',
      probability: CERTAIN,
      detectable: DETECTABLE,
      ...(best === undefined ? {} : { suggested: Number((reading - best.size).toFixed(6)) }),
    },
  };
};
/** Against a fill, a stub or a run of metres; smallest slip that is seen, until it is settled. */
const CERTAIN = 0.999;
const DETECTABLE = 0.1;
