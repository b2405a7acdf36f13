import { solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { depthAssumptions } from '../depth/assumptions.ts';
import { depthReadings } from '../depth/readings.ts';
import { depthView } from '../depth/view.ts';
import { opened } from '../device.suite.ts';
import type { CampaignView } from '../view.ts';
import { todayView } from './view.ts';

/** A crew's two days at an invented hole; expected sums are added up by hand. */
function twoDays() {
  const { phone, hole } = opened('phone');
  const people = phone.book.view().people;
  const [kt, hn] = [people[0]!.id, people[1]?.id ?? people[0]!.id];
  const run = (at: string, number: string, from: string, to: string, more = {}) => {
    phone.me = kt;
    phone.at = at;
    return phone.log('run', { number, from, to, ...more }, hole);
  };
  const piece = (of: string, number: string, length: string, more = {}) => {
    phone.me = hn;
    return phone.log('piece', { number, length, topBreak: 'fits', ...more }, hole, of);
  };
  const one = run('2026-06-13T09:00:00+05:45', '1', '0 m', '0.90 m');
  piece(one, '1', '88 cm');
  const two = run('2026-06-14T09:00:00+05:45', '2', '0.90 m', '1.80 m');
  piece(two, '1', '50 cm', { mass: '2100 g' });
  piece(two, '2', '38 cm');
  const three = run('2026-06-14T09:30:00+05:45', '3', '1.80 m', '2.65 m');
  piece(three, '1', '80 cm', { topBreak: 'loss', loss: '3 cm' });
  piece(three, '2', '11 cm', { ice: 'wall snow' });
  run('2026-06-14T16:00:00+05:45', '4', '2.65 m', '3.50 m', { recovered: 'nothing' });
  const view = phone.book.view();
  return { phone, hole, kt, hn, view };
}

const now = Date.parse('2026-06-14T18:00:00+05:45');

const solved = (view: CampaignView) =>
  Object.fromEntries(
    view.holes.map((hole) => [
      hole.id,
      depthView(hole, solveDepths(depthReadings(hole, view), depthAssumptions(hole))),
    ]),
  );

describe('todayView', () => {
  it('adds up the last 24 hours by hole and shift: another pause, another shift; wall snow is no core', () => {
    const { view, kt, hn } = twoDays();
    const today = todayView(view, solved(view), now);
    expect(today.totals).toEqual({
      runs: 3,
      empty: 1,
      drilled: expect.closeTo(0.9 + 0.85 + 0.85, 9),
      core: expect.closeTo(0.5 + 0.38 + 0.8, 9),
      pieces: 3,
      weighed: 1,
    });
    const [hole] = today.holes;
    expect(hole!.shifts.map(({ driller, loggers, runs }) => [driller, loggers, runs])).toEqual([
      [kt, [hn], 2],
      [kt, [], 1],
    ]);
    expect(today.lastWork).toBe('2026-06-14T16:00:00+05:45');
  });

  it('counts core that was read off the tray tape', () => {
    const { phone, hole } = twoDays();
    phone.at = '2026-06-14T17:00:00+05:45';
    const five = phone.log('run', { number: '5', from: '3.50 m', to: '4.40 m' }, hole);
    phone.log('piece', { number: '1', topBreak: 'fits' }, hole, five);
    phone.log('piece', { number: '2', topBreak: 'fits' }, hole, five);
    const before = todayView(phone.book.view(), {}, now).totals.core;
    phone.log('tray', { run: five, positions: '0; 43.2; 85.6 cm' }, hole);
    expect(todayView(phone.book.view(), {}, now).totals.core - before).toBeCloseTo(0.856, 9);
  });

  it('says whether what was drilled is core, lost or left in the hole', () => {
    const { view } = twoDays();
    const { closing } = todayView(view, solved(view), now).holes[0]!;
    expect(closing).toMatchObject({
      runs: 3,
      open: [],
      advance: expect.closeTo(2.6, 9),
      core: expect.closeTo(1.68, 9),
      lost: expect.closeTo(0.03, 9),
      closes: true,
    });
    // The last run brought nothing: its ice still stands in the hole.
    expect(closing!.stub).toBeGreaterThan(0.7);
  });

  it('does not close where more core came up than was drilled, and says by how much', () => {
    const { phone, hole } = twoDays();
    phone.at = '2026-06-14T17:00:00+05:45';
    const five = phone.log('run', { number: '5', from: '3.50 m', to: '4.40 m' }, hole);
    phone.log('piece', { number: '1', length: '285 cm', topBreak: 'fits' }, hole, five);
    const later = phone.book.view();
    const { closing } = todayView(later, solved(later), now).holes[0]!;
    expect(closing!.closes).toBe(false);
    // 2.85 m came up where 0.9 m was drilled and 0.85 m stood: 1.1 m too much, give or take chips and stubs.
    expect(closing!.difference).toBeLessThan(-0.9);
    expect(closing!.difference).toBeGreaterThan(-1.3);
  });

  it('leaves out a run whose core is not logged yet, and names it', () => {
    const { phone, hole, view } = twoDays();
    const before = todayView(view, solved(view), now).holes[0]!.closing!;
    phone.at = '2026-06-14T17:00:00+05:45';
    const five = phone.log('run', { number: '5', from: '3.50 m', to: '4.40 m' }, hole);
    phone.log('piece', { number: '1', length: '60 cm', topBreak: 'fits' }, hole, five);
    phone.at = '2026-06-14T17:20:00+05:45';
    const open = phone.log('run', { number: '6', from: '4.40 m', to: '5.20 m' }, hole);
    const later = phone.book.view();
    const { closing } = todayView(later, solved(later), now).holes[0]!;
    expect(closing!.open.map((run) => run.id)).toEqual([open]);
    expect(closing!.runs).toBe(before.runs + 1);
  });

  it('is null where nothing is solved, and empty where nobody drilled', () => {
    const { view } = twoDays();
    expect(todayView(view, {}, now).holes[0]!.closing).toBeNull();
    const week = todayView(view, {}, now + 7 * 86_400_000);
    expect(week.holes).toEqual([]);
    expect(week.lastWork).toBe('2026-06-14T16:00:00+05:45');
  });

  it('names what needs a person: core without pieces, instruments not checked', () => {
    const { phone, hole, view } = twoDays();
    expect(todayView(view, {}, now).needs.map((one) => one.kind)).toEqual(['no instrument']);
    phone.at = '2026-06-12T08:00:00+05:45';
    phone.log('instrument check', { instrument: 'balance', result: 'good' });
    phone.at = '2026-06-14T17:20:00+05:45';
    phone.log('instrument check', { instrument: 'tape', result: 'good' });
    phone.log('run', { number: '5', from: '3.50 m', to: '4.40 m' }, hole);
    const { needs } = todayView(phone.book.view(), {}, now);
    expect(needs.map((one) => one.kind)).toEqual(['core', 'instrument']);
    expect(needs[1]).toMatchObject({ instrument: 'balance' });
  });

  it('finds who is on shift, the newest handover and the newest weather by then', () => {
    const { phone } = twoDays();
    const began = '2026-06-14T06:00:00+05:45';
    phone.at = began;
    const stays = phone.log('duty', { person: 'KT', as: 'driller', began });
    phone.log('duty', { person: 'KT', as: 'cook', began, ended: '2026-06-14T08:00:00+05:45' });
    phone.log('handover', { says: 'Cutters are blunt.' });
    phone.log('weather', { sky: 'clear' });
    phone.at = '2026-06-15T06:00:00+05:45';
    phone.log('weather', { sky: 'fog' });
    const today = todayView(phone.book.view(), {}, now);
    expect(today.onShift.map((one) => one.id)).toEqual([stays]);
    expect(today.handover?.readings.says?.text).toBe('Cutters are blunt.');
    expect(today.weather?.readings.sky?.text).toBe('clear');
  });
});
