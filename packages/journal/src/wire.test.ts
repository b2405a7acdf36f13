import { describe, expect, it } from 'vitest';
import { PROTOCOL } from './exchange.ts';
import { seededRandom } from './simulation/random.ts';
import { readReply, readRequest } from './wire.ts';

const HASH = 'a'.repeat(64);
const REQUEST = {
  protocol: PROTOCOL,
  campaign: 'c',
  from: 'd',
  turn: 't',
  epoch: 'e',
  basis: null,
  now: 5,
  have: { d: [{ sequence: 3, hash: HASH }] },
  unsure: { d: 2 },
  entries: [],
};
const REPLY = { ...REQUEST, basis: 'b', refused: [{ hash: HASH, problem: 'p' }], more: true };

describe('readRequest', () => {
  it('gives back what a replica sent, through JSON text', () => {
    const read = readRequest(JSON.parse(JSON.stringify(REQUEST)));
    expect(read).toEqual({ ok: true, value: REQUEST });
    const refusing = { ...REQUEST, refused: [HASH] };
    expect(readRequest(JSON.parse(JSON.stringify(refusing)))).toEqual({ ok: true, value: refusing });
    const short = { ...REQUEST, have: {}, mark: HASH, since: HASH, knows: HASH };
    expect(readRequest(JSON.parse(JSON.stringify(short)))).toEqual({ ok: true, value: short });
  });

  it('leaves unknown properties behind, at every level', () => {
    const have = { d: [{ sequence: 3, hash: HASH, more: 1 }] };
    expect(readRequest({ ...REQUEST, extra: 1, have })).toEqual({ ok: true, value: REQUEST });
  });

  it.each([
    [{ protocol: 2 }, /"protocol" is 2, this version speaks 1/],
    [{ protocol: undefined }, /"protocol"/],
    [{ campaign: '' }, /"campaign"/],
    [{ from: 7 }, /"from"/],
    [{ turn: 'a b' }, /"turn"/],
    [{ epoch: null }, /"epoch"/],
    [{ basis: 7 }, /"basis"/],
    [{ now: 'noon' }, /"now"/],
    [{ now: Number.NaN }, /"now"/],
    [{ mark: 7 }, /"mark" is not a mark/],
    [{ since: null }, /"since" is not a mark/],
    [{ knows: 'A'.repeat(64) }, /"knows" is not a mark/],
    [{ have: [] }, /"have" is not an object/],
    [{ have: { d: 1 } }, /list of heads/],
    [{ have: { d: [null] } }, /head/],
    [{ have: { d: [{ sequence: 0, hash: HASH }] } }, /sequence/],
    [{ have: { d: [{ sequence: 1, hash: 'x' }] } }, /hash/],
    [{ have: { 'a b': [] } }, /names no device/],
    [
      { have: Object.fromEntries(Array.from({ length: 10_001 }, (_, at) => [`d${at}`, []])) },
      /more than 10000/,
    ],
    [{ unsure: { d: -1 } }, /"unsure"/],
    [{ entries: {} }, /"entries" is not a list/],
    [{ refused: {} }, /"refused" is not a list/],
    [{ refused: [{ toString: 1 }] }, /"refused" holds no hash/],
    [{ entries: Array(10_001).fill(null) }, /more than 10000/],
  ])('refuses %j and says what is wrong', (change, message) => {
    const read = readRequest({ ...REQUEST, ...change });
    expect(read.ok ? 'taken' : read.problem).toMatch(message);
  });

  it('a device called "__proto__" pollutes nothing', () => {
    const text = JSON.stringify(REQUEST).replace('"have":{"d"', '"have":{"__proto__"');
    const read = readRequest(JSON.parse(text));
    expect(read.ok && Object.keys(read.value.have)).toEqual(['__proto__']);
    expect(Object.getPrototypeOf(read.ok && read.value.have)).toBeNull();
    expect(({} as Record<string, unknown>)[0]).toBeUndefined();
  });

  it('answers 2,000 random mutilations of a message without throwing', () => {
    const random = seededRandom(5);
    const junk = [null, 1, -1, 'x', '', [], {}, true, { __proto__: 1 }, ['x'], 1e300];
    for (let round = 0; round < 2000; round += 1) {
      const message: Record<string, unknown> = structuredClone(REPLY);
      for (const name of Object.keys(message)) if (random.chance(0.2)) message[name] = random.pick(junk);
      expect(typeof readRequest(message).ok).toBe('boolean');
      expect(typeof readReply(message).ok).toBe('boolean');
    }
  });
});

describe('readReply', () => {
  it('gives back what a replica sent', () => {
    const { from: _, ...reply } = REPLY;
    expect(readReply(JSON.parse(JSON.stringify(REPLY)))).toEqual({ ok: true, value: reply });
    const forgetful = { ...reply, forgot: true };
    expect(readReply(forgetful)).toEqual({ ok: true, value: forgetful });
    expect(readReply({ ...reply, forgot: 'yes' })).toEqual({ ok: true, value: reply });
  });

  it.each([null, 'text', [], { ...REPLY, refused: [{}] }, { ...REPLY, refused: 1 }])(
    'refuses %j',
    (value) => {
      expect(readReply(value).ok).toBe(false);
    },
  );
});
