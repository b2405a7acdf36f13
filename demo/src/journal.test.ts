import {
  densityInputs,
  densityView,
  depthAssumptions,
  depthReadings,
  depthView,
  findRun,
} from '@firnbook/campaign';
import { createLedger, digestOf, open } from '@firnbook/journal';
import { solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { bookOf } from './folded.suite.ts';
import { DEMO_CAMPAIGN, DEMO_SEED, demoEntries, demoJournal } from './index.ts';
import { demoTruth } from './truth.ts';

const entries = demoEntries();
const view = bookOf(entries).view();
const truth = demoTruth(DEMO_SEED);
const holes = view.holes.map((hole, at) => {
  const solution = solveDepths(depthReadings(hole, view), depthAssumptions(hole));
  const names = new Map(hole.runs.flatMap((run) => [run, ...run.pieces]).map((one) => [one.id, one.name]));
  return { hole, solution, names, ...truth[at]! };
});

describe('demoJournal', () => {
  it('of the same seed gives the same bytes, of another seed others', () => {
    expect(demoEntries()).toEqual(entries);
    const other = demoJournal({ seed: DEMO_SEED + 1 });
    expect(digestOf(other.map((one) => one.hash))).not.toBe(digestOf(entries.map((one) => one.hash)));
  });

  it('J8: every entry names its person and device; the three chains are whole and not forked', () => {
    const opened = entries.map((sealed) => open(sealed));
    expect(opened.every((one) => one.ok)).toBe(true);
    const ledger = createLedger();
    ledger.add(opened.flatMap((one) => (one.ok ? [one.entry] : [])));
    expect([...ledger.devices()]).toHaveLength(3);
    expect([ledger.forks(), ledger.orphans(), ledger.waiting()]).toEqual([[], [], []]);
    expect(ledger.entries().every((entry) => entry.header.campaign === DEMO_CAMPAIGN)).toBe(true);
    expect(view.people.map((one) => one.name)).toEqual(['HN', 'KT', 'MO', 'RA', 'LV', 'SB']);
    expect(ledger.entries().every(({ header }) => view.people.some((one) => one.id === header.by))).toBe(
      true,
    );
  });

  it('says that it is invented, and is all understood', () => {
    expect(view).toMatchObject({ name: 'Ceredin Saddle', invented: true, notUnderstood: 0, waiting: 0 });
    expect(view.devices!.map((one) => one.name).sort()).toEqual([
      'camp computer',
      "driller's phone",
      "logger's tablet",
    ]);
    for (const { hole } of holes) expect(hole).toMatchObject({ conflicts: [], notUnderstood: 0, waiting: 0 });
    expect(view.holes.map((hole) => hole.name)).toEqual(['CER-A', 'CER-B', 'CER-C']);
  });

  it('holds the season that the screens want to show: each plan of each hole happened', () => {
    for (const { hole, plan, trips } of holes) {
      expect(hole.runs).toHaveLength(trips.length);
      expect(trips.at(-1)!.bottom).toBeGreaterThan(plan.target);
      const empty = hole.runs.filter((run) => run.nothingRecovered).map((run) => run.number);
      expect(empty).toEqual([plan.empty]);
      for (const lost of plan.lost)
        expect(hole.runs[lost - 1]!.pieces[0]!.readings.topBreak!.text).toBe('loss');
      expect(hole.soundings).toHaveLength(plan.sounded.length);
      expect(hole.others['cable check']).toHaveLength(plan.checked.length);
      expect(hole.others.feature!.length).toBeGreaterThan(20);
      expect(hole.zeros).toHaveLength(plan.zeroMoved === undefined ? 1 : 2);
    }
    const [a, b, c] = holes.map(({ hole }) => hole);
    expect(a!.runs[4]!.pieces.at(-1)!.readings.ice!.text).toBe('wall snow');
    expect(b!.runs[8]!.readings.to!.struck[0]!.reason).toContain('swapped');
    expect(b!.runs[57]!.pieces.at(-1)!.readings.found!.text).toBe('later');
    expect(c!.others.tray).toHaveLength(7);
    expect(c!.runs[87]!.pieces[0]!.readings.ice!.text).toBe('crumbled');
    expect(findRun(c!, c!.runs[91]!.id)!.pieces[1]!.readings.order!.text).toBe('unsure');
    for (const kind of ['set-up', 'site', 'weather', 'duty', 'handover', 'pit', 'stake', 'blank', 'splice'])
      expect(view.others[kind]!.length).toBeGreaterThan(0);
  });

  it('given now: the last entry was made then', () => {
    const now = Date.UTC(2027, 0, 2, 3, 4);
    const last = open(demoJournal({ seed: 1, now }).at(-1)!);
    expect(last.ok && Date.parse(last.entry.header.observedAt)).toBe(now);
  });

  it('solved: nine in ten true bottoms lie within two standard deviations, through the storm and its new zero', () => {
    for (const { solution, trips } of holes) {
      expect(solution.converged).toBe(true);
      const inside = solution.runs.filter(
        ({ holeBottom }, at) => Math.abs(holeBottom.value - trips[at]!.bottom) < 2 * holeBottom.sd,
      );
      expect(inside.length / solution.runs.length).toBeGreaterThan(0.9);
    }
  });

  it('what was typed wrong and left is found: by the depths, or by a density that ice can not have', () => {
    for (const { hole, plan, solution, names } of holes) {
      const density = densityView(densityInputs(hole, view, depthView(hole, solution)));
      const found = [
        ...solution.findings.map((one) => names.get(one.which)!),
        ...density.flagged.map((id) => names.get(id)!),
      ];
      for (const slip of plan.slips)
        expect(found.some((name) => Number(/(\d{3})/.exec(name)![1]) === slip.run)).toBe(true);
      // Nothing else is made a person's business.
      const runs = new Set(found.map((name) => Number(/(\d{3})/.exec(name)![1])));
      expect([...runs].filter((run) => !plan.slips.some((slip) => slip.run === run))).toEqual([]);
    }
  });
});
