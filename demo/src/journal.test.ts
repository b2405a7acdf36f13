import { depthReadings, findRun } from '@firnbook/campaign';
import { createLedger, digestOf, open } from '@firnbook/journal';
import { solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { bookOf } from './folded.suite.ts';
import { EMPTY_AT, LOST_AT, STUB_AT } from './ice.ts';
import { DEMO_CAMPAIGN, DEMO_SEED, demoEntries, demoJournal } from './index.ts';
import { demoTruth } from './truth.ts';

const entries = demoEntries();
const hole = bookOf(entries).view().holes[0]!;
const truth = demoTruth(DEMO_SEED);

describe('demoJournal', () => {
  it('of the same seed gives the same bytes, of another seed others', () => {
    expect(demoEntries()).toEqual(entries);
    const hashes = (seed: number) => digestOf(demoJournal({ seed }).map((one) => one.hash));
    expect(hashes(DEMO_SEED)).toBe(digestOf(entries.map((one) => one.hash)));
    expect(hashes(DEMO_SEED + 1)).not.toBe(hashes(DEMO_SEED));
  });

  it('J8: every entry names its person and device; the two chains are whole and not forked', () => {
    const opened = entries.map((sealed) => open(sealed));
    expect(opened.every((one) => one.ok)).toBe(true);
    const ledger = createLedger();
    ledger.add(opened.flatMap((one) => (one.ok ? [one.entry] : [])));
    expect([...ledger.devices()]).toHaveLength(2);
    expect([ledger.forks(), ledger.orphans(), ledger.waiting()]).toEqual([[], [], []]);
    expect(ledger.entries().every((entry) => entry.header.campaign === DEMO_CAMPAIGN)).toBe(true);
    const people = bookOf(entries).view().people;
    expect(people.map((one) => one.name)).toEqual(['HN', 'KT', 'MO', 'RA']);
    expect(ledger.entries().every(({ header }) => people.some((one) => one.id === header.by))).toBe(true);
  });

  it('says that it is invented, and holds what the screens want to show', () => {
    const view = bookOf(entries).view();
    expect(view).toMatchObject({ name: 'Ceredin Saddle', invented: true, notUnderstood: 0, waiting: 0 });
    expect(view.devices!.map((one) => one.name).sort()).toEqual(["driller's phone", "logger's tablet"]);
    expect(hole).toMatchObject({ letter: 'B', name: 'CER-B', conflicts: [], notUnderstood: 0, waiting: 0 });
    expect(hole.runs).toHaveLength(36);
    expect(hole.zeros).toHaveLength(1);
    expect(hole.soundings).toHaveLength(2);
    expect(hole.runs.filter((run) => run.nothingRecovered).map((run) => run.number)).toEqual([EMPTY_AT]);
    expect(hole.runs[LOST_AT - 1]!.pieces[0]!.readings.topBreak!.text).toBe('loss');
    const core = (run: number) =>
      hole.runs[run - 1]!.pieces.reduce((sum, piece) => sum + piece.readings.length!.value!, 0);
    const drilled = (run: number) =>
      hole.runs[run - 1]!.readings.to!.value! - hole.runs[run - 1]!.readings.from!.value!;
    expect(drilled(STUB_AT) - core(STUB_AT)).toBeGreaterThan(0.15);
    expect(core(STUB_AT + 1) - drilled(STUB_AT + 1)).toBeGreaterThan(0.15);
    const to = hole.runs[truth.corrected.run - 1]!.readings.to!;
    expect(to.struck).toHaveLength(1);
    expect(to.struck[0]!.reason).toContain('swapped');
    expect(findRun(hole, hole.runs[35]!.id)!.readings.to!.value).toBeGreaterThan(29);
  });

  it('given now: the last entry was made then', () => {
    const now = Date.UTC(2027, 0, 2, 3, 4);
    const last = open(demoJournal({ seed: 1, now }).at(-1)!);
    expect(last.ok && Date.parse(last.entry.header.observedAt)).toBe(now);
  });

  it('solved: the slip is the one finding, and nine in ten true bottoms lie within two standard deviations', () => {
    const solution = solveDepths(depthReadings(hole));
    const slip = hole.runs[truth.slip.run - 1]!.pieces[truth.slip.piece - 1]!;
    expect(solution.findings.map((one) => [one.which, one.field, one.likely])).toEqual([
      [slip.id, 'length', '10 cm'],
    ]);
    expect(solution.findings[0]!.size).toBeCloseTo(truth.slip.size, 1);
    const inside = solution.runs.filter(({ holeBottom }, i) => {
      return Math.abs(holeBottom.value - truth.trips[i]!.bottom) < 2 * holeBottom.sd;
    });
    expect(inside.length / solution.runs.length).toBeGreaterThan(0.9);
  });
});
