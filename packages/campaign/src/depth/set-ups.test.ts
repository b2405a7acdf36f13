import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { setupOf } from './set-ups.ts';

function drills() {
  const { phone, hole } = opened('phone');
  phone.at = '2026-06-14T08:00:00+05:45';
  const short = phone.log('set-up', { name: 'short barrel', barrel: '1.15 m' });
  phone.at = '2026-06-15T08:00:00+05:45';
  const long = phone.log('set-up', { name: 'long barrel', barrel: '2.2 m' });
  phone.at = '2026-06-14T09:00:00+05:45';
  const run = phone.log('run', { number: '1' }, hole);
  const now = () => setupOf(phone.book.holeView(hole)!.runs[0]!, phone.book.view())?.id;
  return { phone, short, long, run, now };
}

describe('setupOf', () => {
  it('is the newest that was put together before the run, else the one that it names', () => {
    const { phone, short, long, run, now } = drills();
    expect(now()).toBe(short);
    phone.do({ do: 'add', thing: run, readings: { setup: 'long barrel' } });
    expect(now()).toBe(long);
  });

  it('one that was joined is the one that it turned out to be; one that is withdrawn says nothing of the drill', () => {
    const { phone, short, long, run, now } = drills();
    phone.do({ do: 'add', thing: run, readings: { setup: long } });
    phone.do({ do: 'withdraw', thing: long, reason: 'never used' });
    expect(now()).toBeUndefined();
    phone.do({ do: 'restore', thing: long, reason: 'it was' });
    phone.do({ do: 'join', into: short, from: long, reason: 'logged twice' });
    expect(now()).toBe(short);
  });
});
