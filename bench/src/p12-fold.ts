/**
 * P12: a whole season of 150,000 entries folded: three holes, runs of four pieces, one correction in twenty, from
 * three devices. The figure is the fold of opened entries with the campaign's own rules and the first look at
 * everything. Timed beside it: the fold alone, one more entry with its look, opening bytes that were checked before
 * (`reopen`) and unknown bytes with both hashes (`open`). Limit in the same run: JSON.parse of the same texts.
 */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { createBook } from '@firnbook/campaign';
import { createFold, type Entry, open, reopen } from '@firnbook/journal';
import { season } from './season.ts';

const count = 150_000;
const rounds = 5;
/** Entries that come one by one after the first look. */
const oneMore = 20;

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
const rows = season(count);
const times = {
  parse: [],
  reopen: [],
  open: [],
  whole: [],
  apply: [],
  one: [],
  count: [],
  late: [],
} as Record<string, number[]>;
let entries: readonly Entry[] = [];
for (let round = 0; round < rounds; round += 1) {
  timed('parse', () => rows.map(({ head, body }) => [JSON.parse(head), JSON.parse(body ?? 'null')]));
  entries = timed('reopen', () => rows.map((row) => opened(reopen(row))));
  timed('open', () => rows.map((row) => opened(open(row))));
  const book = createBook();
  const more = entries.slice(-oneMore);
  timed('whole', () => {
    book.add(entries.slice(0, -oneMore));
    return book.view();
  });
  for (const entry of more)
    timed('one', () => {
      book.add([entry]);
      return book.view();
    });
  // Without the entries that open the holes everything is folded and nothing is there to be shown.
  const blind = createBook();
  const untold = entries.filter((entry) => entry.header.kind !== 'hole.logged');
  timed('apply', () => {
    blind.add(untold);
    return blind.view();
  });
  const counter = counting();
  timed('count', () => {
    counter.add(entries.filter((_, index) => index !== 10));
    return counter.threads().map((thread) => counter.state(thread));
  });
  timed('late', () => counter.add([entries[10]!]).map((thread) => counter.state(thread)));
}

const wholeMs = median('whole');
const applyMs = median('apply');
const parseMs = median('parse');
process.stdout.write(
  `${JSON.stringify({
    id: 'P12',
    what: `${count} opened entries folded into the campaign's views`,
    ms: round(wholeMs),
    target_ms: 1000,
    apply_ms: round(applyMs),
    first_view_ms: round(wholeMs - applyMs),
    one_more_entry_ms: round(median('one')),
    counting_fold_ms: round(median('count')),
    one_late_entry_ms: round(median('late')),
    reopen_ms: round(median('reopen')),
    open_with_hashes_ms: round(median('open')),
    limit: 'JSON.parse of the same texts',
    limit_ms: round(parseMs),
    ratio: Math.round((wholeMs / parseMs) * 100) / 100,
    rounds,
  })}\n`,
);

/** The smallest reducer there is: what is left is the fold's own time. */
function counting() {
  return createFold<{ count: number }>({
    threadsOf: ({ header, body }) => [`hole:${String(body?.hole ?? header.id)}`],
    initial: () => ({ count: 0 }),
    apply: (state) => {
      state.count += 1;
    },
  });
}

function opened(result: ReturnType<typeof open>): Entry {
  if (!result.ok) throw new Error(result.problem);
  return result.entry;
}

function timed<T>(name: string, work: () => T): T {
  // What was timed before leaves hundreds of megabytes behind; clearing them away is not this one's work.
  if (name !== 'one') collect();
  const start = performance.now();
  const result = work();
  times[name]!.push(performance.now() - start);
  return result;
}

function median(name: string): number {
  return times[name]!.sort((a, b) => a - b)[times[name]!.length >> 1]!;
}

function round(milliseconds: number): number {
  return Math.round(milliseconds * 10) / 10;
}
