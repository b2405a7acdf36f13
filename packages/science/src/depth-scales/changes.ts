import type { DepthAssumptions } from '../depth/assumptions.ts';
import type { DepthReadings } from '../depth/readings.ts';

/** Lists of things in the readings, and what one of each is called. */
const lists = {
  runs: 'run',
  pieces: 'piece',
  soundings: 'sounding',
  cableChecks: 'cable check',
  zeros: 'zero',
} as const;
type List = keyof typeof lists;
export type ThingOfDepth = (typeof lists)[List];

/** One way in which two sets of readings, or the assumptions they are solved with, differ. */
export type Change =
  | {
      readonly kind: 'added' | 'removed';
      readonly what: ThingOfDepth;
      readonly which: string;
      /** Pieces that came with a run that was added. */
      readonly pieces?: readonly string[];
    }
  | {
      readonly kind: 'corrected';
      readonly what: ThingOfDepth;
      readonly which: string;
      readonly field: string;
      /** Absent where it was not read. */
      readonly before: unknown;
      readonly after: unknown;
    }
  /** Things were put into another order. */
  | { readonly kind: 'order'; readonly what: ThingOfDepth }
  /** Something that holds for the whole hole: the cable's data, its temperature, the firn's strain. */
  | { readonly kind: 'setting'; readonly name: string }
  | {
      readonly kind: 'assumption';
      readonly name: keyof DepthAssumptions;
      readonly before: number;
      readonly after: number;
    }
  /** The same readings and assumptions by another version of the solver. */
  | { readonly kind: 'solver'; readonly before: string; readonly after: string };

export interface ThingChange {
  readonly change: Change;
  /** The readings with this change in them too. */
  readonly apply: (readings: DepthReadings) => DepthReadings;
  /** Whether nothing hangs in the air with this change made now: runs come before what hangs on them, and go after it. */
  readonly isPossible: (readings: DepthReadings) => boolean;
}

type Item = { readonly id: string } & Readonly<Record<string, unknown>>;

const itemsOf = (readings: DepthReadings, list: List): readonly Item[] =>
  (readings[list] ?? []) as unknown as readonly Item[];

const withItems = (readings: DepthReadings, list: List, items: readonly Item[]): DepthReadings =>
  ({ ...readings, [list]: items }) as unknown as DepthReadings;

/** Fields that name a run. */
const runFields = ['run', 'afterRun', 'fromRun'];

/** The same values, whatever the order of an object's fields: a file holds them in another one. */
const same = (a: unknown, b: unknown): boolean => {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return Object.is(a, b);
  const [one, other] = [a, b] as Record<string, unknown>[];
  const fields = new Set([...Object.keys(one), ...Object.keys(other)]);
  return (
    Array.isArray(a) === Array.isArray(b) && [...fields].every((field) => same(one[field], other[field]))
  );
};

/**
 * What turns one set of readings into another: things that came and went, fields that were corrected, a changed order.
 * One after the other, in any order that `isPossible` lets through, they lead from `before` to `after`.
 */
export const changesBetween = (before: DepthReadings, after: DepthReadings): readonly ThingChange[] => {
  const out: ThingChange[] = [];
  for (const list of Object.keys(lists) as List[]) out.push(...changesIn(list, before, after));
  const settings = new Set([...Object.keys(before), ...Object.keys(after)]);
  for (const name of settings) {
    if (name in lists) continue;
    const key = name as keyof DepthReadings;
    if (same(before[key], after[key])) continue;
    out.push({
      change: { kind: 'setting', name },
      apply: (readings) => ({ ...readings, [key]: after[key] }),
      isPossible: () => true,
    });
  }
  return runsWithPieces(out, after);
};

/** A run that is added brings its pieces along: one change, as it was one thing to people. */
const runsWithPieces = (changes: readonly ThingChange[], after: DepthReadings): readonly ThingChange[] => {
  const runOf = new Map(after.pieces.map((piece) => [piece.id, piece.run]));
  const brought = new Map<string, { readonly id: string; readonly apply: ThingChange['apply'] }[]>();
  for (const { change } of changes)
    if (change.kind === 'added' && change.what === 'run') brought.set(change.which, []);
  const own = changes.filter(({ change, apply }) => {
    if (change.kind !== 'added' || change.what !== 'piece') return true;
    const pieces = brought.get(runOf.get(change.which) ?? '');
    pieces?.push({ id: change.which, apply });
    return pieces === undefined;
  });
  return own.map((one) => {
    const { change } = one;
    if (change.kind !== 'added' || change.what !== 'run') return one;
    const pieces = brought.get(change.which) ?? [];
    return {
      change: { ...change, pieces: pieces.map(({ id }) => id) },
      apply: (readings) => pieces.reduce((sum, piece) => piece.apply(sum), one.apply(readings)),
      isPossible: one.isPossible,
    };
  });
};

const changesIn = (list: List, before: DepthReadings, after: DepthReadings): ThingChange[] => {
  const what = lists[list];
  const old = new Map(itemsOf(before, list).map((item) => [item.id, item]));
  const now = itemsOf(after, list);
  const ids = new Set(now.map((item) => item.id));
  const out: ThingChange[] = [];
  now.forEach((item, i) => {
    const was = old.get(item.id);
    if (was !== undefined) out.push(...corrections(list, was, item));
    else
      out.push({
        change: { kind: 'added', what, which: item.id },
        // after the nearest one above it that is there already
        apply: (readings) => {
          const items = itemsOf(readings, list);
          const there = new Map(items.map((one, j) => [one.id, j]));
          let above = i - 1;
          while (above >= 0 && !there.has(now[above].id)) above--;
          const at = above < 0 ? 0 : (there.get(now[above].id) as number) + 1;
          return withItems(readings, list, [...items.slice(0, at), item, ...items.slice(at)]);
        },
        isPossible: (readings) => hasRuns(readings, item),
      });
  });
  for (const item of itemsOf(before, list)) {
    if (ids.has(item.id)) continue;
    out.push({
      change: { kind: 'removed', what, which: item.id },
      apply: (readings) =>
        withItems(
          readings,
          list,
          itemsOf(readings, list).filter((one) => one.id !== item.id),
        ),
      isPossible: (readings) => list !== 'runs' || !isNeeded(readings, item.id),
    });
  }
  const stayed = itemsOf(before, list).filter((item) => ids.has(item.id));
  const order = now.filter((item) => old.has(item.id));
  if (stayed.some((item, i) => item.id !== order[i].id))
    out.push({
      change: { kind: 'order', what },
      apply: (readings) => {
        const rank = new Map(now.map((item, i) => [item.id, i]));
        const items = itemsOf(readings, list);
        const kept = items
          .filter((item) => rank.has(item.id))
          .sort((a, b) => (rank.get(a.id) as number) - (rank.get(b.id) as number));
        // what is still to go stays where it is
        return withItems(
          readings,
          list,
          items.map((item) => (rank.has(item.id) ? (kept.shift() as Item) : item)),
        );
      },
      isPossible: () => true,
    });
  return out;
};

const corrections = (list: List, was: Item, is: Item): ThingChange[] => {
  const fields = [...new Set([...Object.keys(was), ...Object.keys(is)])];
  return fields
    .filter((field) => !same(was[field], is[field]))
    .map((field) => ({
      change: {
        kind: 'corrected',
        what: lists[list],
        which: is.id,
        field,
        before: was[field],
        after: is[field],
      },
      apply: (readings) =>
        withItems(
          readings,
          list,
          itemsOf(readings, list).map((item) => {
            if (item.id !== is.id) return item;
            const { [field]: _, ...rest } = item;
            return (is[field] === undefined ? rest : { ...rest, [field]: is[field] }) as Item;
          }),
        ),
      isPossible: (readings) =>
        !runFields.includes(field) || itemsOf(readings, 'runs').some((run) => run.id === is[field]),
    }));
};

const hasRuns = (readings: DepthReadings, item: Item): boolean =>
  runFields.every(
    (field) => item[field] === undefined || itemsOf(readings, 'runs').some((run) => run.id === item[field]),
  );

const isNeeded = (readings: DepthReadings, run: string): boolean =>
  (Object.keys(lists) as List[]).some((list) =>
    itemsOf(readings, list).some((item) => runFields.some((field) => item[field] === run)),
  );
