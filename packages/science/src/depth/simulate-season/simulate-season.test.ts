import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../random/index.ts';
import { type SeasonPlan, simulateSeason, usualPlan } from './index.ts';

const plan: SeasonPlan = { ...usualPlan, habits: 'drawn' };
const seeds = Array.from({ length: 40 }, (_, i) => i + 1);
const seasons = seeds.map((seed) => simulateSeason(seeded(seed), plan));

describe('simulateSeason', () => {
  it('imports nothing of the solver: only random draws and its own files', () => {
    const here = new URL('.', import.meta.url);
    const files = readdirSync(here).filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'));
    expect(files.length).toBeGreaterThan(8);
    for (const name of files)
      for (const [, from] of readFileSync(new URL(name, here), 'utf8').matchAll(/from '([^']+)'/g))
        expect(from, name).toMatch(/^(\.\/[a-z-]+\.ts|\.\.\/\.\.\/random\/index\.ts)$/);
  });
  it('gives the same season for the same seed', () => {
    expect(JSON.stringify(simulateSeason(seeded(7), plan))).toBe(
      JSON.stringify(simulateSeason(seeded(7), plan)),
    );
  });
  it('a usual season is a hole of about 110 m in 140 runs of at most 1 m, in two to four hundred pieces', () => {
    for (const { truth } of seasons) {
      expect(truth.hole.length).toBe(140);
      expect(truth.hole.at(-1)).toBeGreaterThan(95);
      expect(truth.hole.at(-1)).toBeLessThan(120);
      expect(truth.top.length).toBeGreaterThan(200);
      expect(truth.top.length).toBeLessThan(400);
      truth.hole.forEach((bottom, r) => {
        expect(bottom - (truth.hole[r - 1] ?? 0)).toBeLessThanOrEqual(1);
      });
    }
  });
  it('the truth closes: every piece begins a gap below the one above, and the last ends a stub above the bottom', () => {
    for (const { truth } of seasons) {
      truth.top.forEach((top, i) => {
        expect(top - (truth.bottom[i - 1] ?? 0)).toBeCloseTo(truth.gap[i], 9);
        expect(truth.bottom[i]).toBeGreaterThan(top);
        expect(truth.gap[i]).toBeGreaterThanOrEqual(0);
      });
      expect(truth.bottom.at(-1)! + truth.stub.at(-1)!).toBeCloseTo(truth.hole.at(-1)!, 9);
    }
  });
  it('no core is longer than the barrel, none comes from below the hole, all of it lies in order', () => {
    for (const { readings, truth } of seasons) {
      const place = new Map(truth.pieceIds.map((id, i) => [id, i]));
      readings.runs.forEach((run, r) => {
        const own = readings.pieces.flatMap((piece) =>
          piece.run === run.id ? (place.get(piece.id) ?? []) : [],
        );
        if (own.length === 0) return;
        const last = truth.bottom[own[own.length - 1]];
        expect(last - truth.top[own[0]]).toBeLessThanOrEqual(1.35);
        expect(last).toBeLessThanOrEqual(truth.hole[r]);
      });
    }
  });
  it('some runs bring nothing, and the next brings their ice', () => {
    let empty = 0;
    for (const { readings, truth } of seasons) {
      const brought = new Set(readings.pieces.map((piece) => piece.run));
      readings.runs.forEach((run, r) => {
        if (brought.has(run.id)) return;
        empty++;
        expect(truth.stub[r]).toBeGreaterThan(0.04);
        expect(brought.has(readings.runs[r + 1].id)).toBe(true);
      });
    }
    expect(empty / (140 * seasons.length)).toBeGreaterThan(0.01);
    expect(empty / (140 * seasons.length)).toBeLessThan(0.03);
  });
  it('words are sometimes wrong: fits where 2 cm are lost, unsure where it fits', () => {
    const said = seasons.flatMap(({ readings, truth }) => {
      const words = new Map(readings.pieces.map((piece) => [piece.id, piece.topBreak]));
      return truth.pieceIds.map((id, i) => ({
        word: words.get(id),
        gap: truth.gap[i],
        is: truth.meeting[i],
      }));
    });
    const share = (of: typeof said) => of.length / said.length;
    expect(share(said.filter(({ word, gap }) => word === 'fits' && gap > 0.02))).toBeGreaterThan(0.001);
    expect(share(said.filter(({ word, gap }) => word === 'fits' && gap > 0.02))).toBeLessThan(0.02);
    expect(share(said.filter(({ word, is }) => word === 'unsure' && is === 'fits'))).toBeGreaterThan(0.01);
  });
  it('a crew of plain habits writes counters, lengths, three words and soundings, nothing else', () => {
    const { readings } = simulateSeason(seeded(3));
    const keys = (list: readonly object[]) => new Set(list.flatMap((one) => Object.keys(one)));
    expect([...keys(readings.runs)].sort()).toEqual(['from', 'id', 'to']);
    const known = ['id', 'length', 'loss', 'run', 'topBreak'];
    for (const key of keys(readings.pieces)) expect(known).toContain(key);
    for (const { topBreak } of readings.pieces) expect(['fits', 'loss', 'unsure']).toContain(topBreak);
    expect(Object.keys(readings)).toEqual(['runs', 'pieces', 'soundings']);
    expect(readings.soundings.length).toBe(3);
  });
  it('a catcher mark lies where its run closed the catchers, within 5 cm, unless it is put to another run', () => {
    let marks = 0;
    let near = 0;
    for (const { readings, truth } of seasons) {
      const runs = new Map(readings.runs.map((run, r) => [run.id, r]));
      for (const { id, catcherMark } of readings.pieces) {
        if (catcherMark === undefined) continue;
        marks++;
        const r = runs.get(catcherMark.byRun)!;
        const height = readings.runs[r].catcherHeight!;
        const at = truth.top[truth.pieceIds.indexOf(id)] + catcherMark.depth;
        if (Math.abs(truth.hole[r] - height - at) < 0.05) near++;
      }
    }
    expect(marks).toBeGreaterThan(500);
    expect(near / marks).toBeGreaterThan(0.97);
  });
});
