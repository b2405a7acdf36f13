import { type Command, createBook } from '@firnbook/campaign';
import { type Draft, type Entry, seal } from '@firnbook/journal';
import { describe, expect, it } from 'vitest';
import { runJob } from '../solve/run-job.ts';
import { createSolver } from '../solve/solver.ts';
import { startSolving } from './solving.ts';

/** A book with one hole, one device that writes in it, and a solver that answers when the test says so. */
function followed() {
  const book = createBook();
  const entries: Entry[] = [];
  let ids = 0;
  const newId = () => `01900000-0000-7000-8000-${String((ids += 1)).padStart(12, '0')}`;
  const write = (draft: Draft): void => {
    const sequence = entries.length + 1;
    const entry = seal(draft, {
      campaign: 'ceredin',
      device: 'tablet',
      sequence,
      previous: entries.at(-1)?.hash ?? null,
      stamp: `${String(sequence).padStart(15, '0')}-000000`,
      salt: '0'.repeat(32),
    });
    entries.push(entry);
    book.add([entry]);
  };
  const jobs: string[] = [];
  const pending: (() => Promise<void>)[] = [];
  const solver = createSolver((_, answer) => ({
    give(job) {
      jobs.push(job.task.do);
      pending.push(() => runJob(job).then(answer));
    },
    close: () => undefined,
  }));
  const solving = startSolving(solver, () => undefined);
  const say = (command: Command): string => {
    const by = book.view().people[0]?.id ?? '';
    const decision = book.decide(command, { by, observedAt: '2031-06-14T11:42:05+05:45', newId });
    if (!decision.ok) throw new Error(JSON.stringify(decision.refusals));
    decision.drafts.forEach(write);
    return decision.drafts[0]!.id;
  };
  say({
    do: 'open campaign',
    readings: { name: 'Ceredin Saddle', invented: 'yes' },
    crew: [{ initials: 'HN' }],
  });
  const hole = say({ do: 'log', kind: 'hole', readings: { letter: 'B' } });
  const run = say({
    do: 'log',
    kind: 'run',
    hole,
    readings: { number: '1', from: '0 m', to: '2 m', recovered: 'core' },
  });
  const piece = (number: string, mass: string) =>
    say({
      do: 'log',
      kind: 'piece',
      hole,
      run,
      readings: { number, length: '50 cm', topBreak: 'fits', mass, diameterTop: '98 mm' },
    });
  return {
    hole,
    jobs,
    solving,
    say,
    piece,
    follow: () => solving.follow(book.view()),
    /** Answers everything that waits, and what that asks for in turn. */
    async settle() {
      for (let next = pending.shift(); next !== undefined; next = pending.shift()) await next();
    },
  };
}

describe('startSolving', () => {
  it('computes no density until somebody looks at one, then keeps it up, then no more', async () => {
    const { hole, jobs, solving, piece, follow, settle } = followed();
    const first = piece('1', '1.7 kg');
    piece('2', '1.8 kg');
    follow();
    await settle();
    expect(jobs).toEqual(['depths']);
    const stop = solving.watchDensity(hole);
    await settle();
    expect(jobs).toEqual(['depths', 'density']);
    expect(solving.densities[hole]?.pieces[first]?.result?.density.value).toBeCloseTo(451, 0);
    piece('3', '1.9 kg');
    follow();
    expect(jobs).toEqual(['depths', 'density', 'depths']);
    await settle();
    expect(jobs).toEqual(['depths', 'density', 'depths', 'density']);
    stop();
    piece('4', '1.9 kg');
    follow();
    await settle();
    expect(jobs.slice(4)).toEqual(['depths']);
  });

  it('asks nothing again where an entry changes nothing that is computed', async () => {
    const { hole, jobs, solving, say, piece, follow, settle } = followed();
    const first = piece('1', '1.7 kg');
    solving.watchDensity(hole);
    follow();
    await settle();
    const before = jobs.length;
    say({ do: 'log', kind: 'weather', readings: { temperature: '-14 °C' } });
    say({ do: 'add', thing: first, readings: { note: 'bright band' } });
    follow();
    await settle();
    expect(jobs.length).toBe(before);
  });

  it('weighs again and solves nothing where a mass alone changes', async () => {
    const { hole, jobs, solving, say, piece, follow, settle } = followed();
    const first = piece('1', '1.7 kg');
    solving.watchDensity(hole);
    follow();
    await settle();
    const before = jobs.length;
    say({ do: 'correct', thing: first, readings: { mass: '1.6 kg' }, reason: 'read again' });
    follow();
    await settle();
    expect(jobs.slice(before)).toEqual(['density']);
    expect(solving.densities[hole]?.pieces[first]?.result?.density.value).toBeCloseTo(424, 0);
  });

  it('says what moved a piece between two states', async () => {
    const { hole, solving, say, piece, follow, settle } = followed();
    const first = piece('1', '1.7 kg');
    follow();
    await settle();
    const { readings, solution } = solving.solved[hole]!;
    say({ do: 'correct', thing: first, readings: { length: '52 cm' }, reason: 'read again' });
    follow();
    await settle();
    const moved = solving.movements(hole, { ...solution, readings });
    await settle();
    expect(await moved).toMatchObject({ changes: [{ kind: 'corrected', which: first, field: 'length' }] });
  });
});
