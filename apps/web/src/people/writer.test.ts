import { describe, expect, it } from 'vitest';
import { storageHere } from './storage.suite.ts';
import { startWriter } from './writer.ts';

const hour = 3_600_000;
const clock = { now: 0 };
const open = () =>
  startWriter(
    'saddle',
    () => clock.now,
    () => undefined,
  );

describe('who writes on this device', () => {
  const stored = storageHere();
  const begin = () => {
    clock.now = Date.parse('2031-01-17T09:40:00Z');
    return open();
  };

  it('is remembered over a reload, with the proof and with who wrote before', () => {
    const writer = begin();
    expect([writer.me, writer.before, writer.proof]).toEqual([null, null, 'none']);
    writer.take('ev', false);
    writer.take('kt', true);
    const again = open();
    expect([again.me, again.before, again.proof]).toEqual(['kt', 'ev', 'given']);
  });

  it('hands over and back in one call each; a proof does not go along', () => {
    const writer = begin();
    writer.take('ev', true);
    writer.take('kt', true);
    writer.take('ev', false);
    expect([writer.me, writer.before, writer.proof]).toEqual(['ev', 'kt', 'none']);
    writer.take('kt', false);
    expect([writer.me, writer.before, writer.proof]).toEqual(['kt', 'ev', 'none']);
  });

  it('after a hand-over nobody does, and whoever did is the one before', () => {
    const writer = begin();
    writer.take('ev', true);
    writer.handOver();
    expect([writer.me, writer.before, writer.proof]).toEqual([null, 'ev', 'none']);
    expect(open().me).toBeNull();
    writer.take('ev', false);
    expect([writer.me, writer.before, writer.proof]).toEqual(['ev', null, 'none']);
  });

  it('a proof holds twelve hours, and picking the same initials again does not end it', () => {
    const writer = begin();
    writer.take('ev', true);
    clock.now += 12 * hour - 1;
    writer.take('ev', false);
    expect(writer.proof).toBe('given');
    clock.now += 1;
    expect(writer.proof).toBe('over');
  });

  it('a clock that is set back ends a proof that it did not begin', () => {
    const writer = begin();
    writer.take('ev', true);
    clock.now -= 1;
    expect(writer.proof).toBe('over');
  });

  it('whoever wrote more than a day ago is offered no more; the newest of several is', () => {
    const writer = begin();
    writer.take('ev', false);
    writer.take('kt', false);
    clock.now += 20 * hour;
    writer.take('mb', false);
    expect(writer.before).toBe('kt');
    clock.now += 23 * hour;
    expect(writer.before).toBe('kt');
    clock.now += hour;
    expect(writer.before).toBeNull();
  });

  it('what waits for a PIN goes on when it is given, when it is not, and when the device is handed over', async () => {
    const writer = begin();
    writer.take('ev', false);
    for (const end of [() => writer.take('ev', true), writer.later, writer.handOver]) {
      const both = Promise.all([writer.wantPin(), writer.wantPin()]);
      expect(writer.isPinWanted).toBe(true);
      end();
      await both;
      expect(writer.isPinWanted).toBe(false);
    }
  });

  it.each(['{"person":"ev"}', '[{"person":"ev","at":"now"}]', '[null]', 'no JSON'])(
    'a proof of %s is none',
    (text) => {
      begin();
      stored.set('firnbook.me.saddle', 'ev');
      stored.set('firnbook.proof.saddle', text);
      expect(open().proof).toBe('none');
    },
  );
});
