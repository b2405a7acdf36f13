import { describe, expect, it } from 'vitest';
import type { Safety } from '../device/book.ts';
import { ticksOf } from './ticks.tsx';

const now = Date.parse('2026-06-14T12:00:00Z');
const safety: Safety = {
  total: 40,
  onTablet: 40,
  copies: 2,
  onCamp: 40,
  onlyHere: 0,
  oldestOnlyHere: null,
  campSeen: '2026-06-14T11:57:00Z',
  camp: 'reachable',
  second: null,
  lacks: [],
  trouble: null,
  cloned: [],
  of: () => 'camp',
  clockDrift: null,
};

describe('three ticks that never lie', () => {
  it('ticksOf: all kept and confirmed says so, with the age of the camp computer’s answer', () => {
    expect(ticksOf(safety, now).map(({ state, says, age }) => [state, says, age])).toEqual([
      ['safe', 'on this tablet', ''],
      ['safe', 'on the camp computer', '3 min ago'],
      ['unsafe', 'second medium: not yet', ''],
    ]);
  });
  it('ticksOf: entries that are only here are counted and dated', () => {
    const behind = { ...safety, onCamp: 37, onlyHere: 3, oldestOnlyHere: '2026-06-14T09:00:00Z' };
    const camp = ticksOf(behind, now)[1];
    expect(camp).toMatchObject({
      state: 'unsafe',
      says: 'camp computer: 3 entries not there yet',
      age: '3 h ago',
    });
  });
  it('ticksOf: an entry that is not committed yet takes the tablet’s tick away', () => {
    expect(ticksOf({ ...safety, onTablet: 39 }, now)[0]).toMatchObject({
      state: 'unsafe',
      says: 'saving 1 entry',
    });
  });
  it('ticksOf: a second medium counts what was read back from it, with its age', () => {
    const second = { entries: 38, at: '2026-06-14T11:30:00Z', names: ['red'] };
    expect(ticksOf({ ...safety, second }, now)[2]).toMatchObject({
      state: 'unsafe',
      says: 'second medium: 2 entries not there yet',
      age: '30 min ago',
    });
    expect(ticksOf({ ...safety, second: { ...second, entries: 40 } }, now)[2]).toMatchObject({
      state: 'safe',
      says: 'on a second medium',
    });
  });
  it('ticksOf: one copy on this tablet is not called safe', () => {
    expect(ticksOf({ ...safety, copies: 1 }, now)[0]).toMatchObject({
      state: 'unsafe',
      says: 'on this tablet in one copy: a crash can take it',
    });
  });
  it('ticksOf: a camp computer that never answered has no tick, even with nothing to tell it', () => {
    expect(ticksOf({ ...safety, total: 0, onTablet: 0, onCamp: 0, campSeen: null }, now)[1]).toMatchObject({
      state: 'unsafe',
      says: 'camp computer: not yet',
    });
  });
});
