import { describe, expect, it } from 'vitest';
import { haveOf } from './coverage.ts';
import { createLedger } from './ledger.ts';
import { createSpeaker, wholeOf } from './said.ts';
import { inventedChain, inventedEntry } from './simulation/invented.ts';

const one = inventedChain('d', 3);
const other = inventedChain('e', 2);

/** A ledger with `count` devices of one entry each, and `d`. */
function crowd(count: number) {
  const ledger = createLedger();
  for (let at = 0; at < count; at += 1) ledger.add(inventedChain(`e${at}`, 1));
  ledger.add(one.slice(0, 1));
  return ledger;
}

describe('createSpeaker', () => {
  it('marks what is held by the sum of its heads modulo 2^256, here added byte by byte', () => {
    const ledger = createLedger();
    ledger.add([...one, ...other]);
    const sum = Buffer.alloc(32);
    let carry = 0;
    for (let at = 31; at >= 0; at -= 1) {
      for (const entry of [one[2]!, other[1]!]) carry += Buffer.from(entry.hash, 'hex')[at]!;
      sum[at] = carry & 255;
      carry >>= 8;
    }
    expect(createSpeaker(ledger).say(undefined)).toEqual({ have: haveOf(ledger), mark: sum.toString('hex') });
  });

  it('a mark of nothing has its 64 digits, and every addition changes it', () => {
    const ledger = createLedger();
    const speaker = createSpeaker(ledger);
    const marks = [speaker.say(undefined).mark];
    expect(marks).toEqual(['0'.repeat(64)]);
    for (const entry of inventedChain('d', 300)) {
      ledger.add([entry]);
      marks.push(speaker.say(undefined).mark);
    }
    expect(new Set(marks).size).toBe(301);
  });

  it('two that hold the same, got in another order, give it one mark', () => {
    const [left, right] = [createLedger(), createLedger()];
    left.add([...one, ...other]);
    for (const entry of [other[0]!, ...one, other[1]!]) right.add([entry]);
    expect(createSpeaker(left).say(undefined).mark).toBe(createSpeaker(right).say(undefined).mark);
  });

  it('says everything to a peer that knows nothing, or something unknown here, or nearly nothing of today', () => {
    const ledger = createLedger();
    ledger.add([...one, ...other]);
    const speaker = createSpeaker(ledger);
    const nothing = createSpeaker(createLedger()).say(undefined).mark;
    for (const knows of [undefined, nothing, 'f'.repeat(64)]) {
      expect(speaker.say(knows)).toMatchObject({ have: haveOf(ledger) });
      expect(speaker.say(knows).since).toBeUndefined();
    }
  });

  it('says what is new since, and the receiver gets the whole of it', () => {
    const ledger = crowd(5);
    const speaker = createSpeaker(ledger);
    const before = speaker.say(undefined);
    ledger.add(one);
    const said = speaker.say(before.mark);
    expect(Object.keys(said.have)).toEqual(['d']);
    expect(said.since).toBe(before.mark);
    expect(wholeOf({ epoch: 's', ...before }, { ...said, epoch: 's' })).toEqual(haveOf(ledger));
    expect(speaker.say(said.mark)).toEqual({ have: {}, mark: said.mark, since: said.mark });
  });

  it('both heads of a device that exists twice', () => {
    const ledger = crowd(5);
    ledger.add(one);
    const speaker = createSpeaker(ledger);
    const before = speaker.say(undefined);
    ledger.add([inventedEntry({ device: 'd', sequence: 3, previous: one[1]!.hash }, { id: 'branch' })]);
    const said = speaker.say(before.mark);
    expect(said.have.d).toHaveLength(2);
    expect(wholeOf({ epoch: 's', ...before }, { ...said, epoch: 's' })).toEqual(haveOf(ledger));
  });

  it('forgets the oldest after 200 others; then everything is said', () => {
    const ledger = crowd(5);
    const speaker = createSpeaker(ledger);
    const first = speaker.say(undefined).mark;
    const chain = inventedChain('d', 201);
    for (const entry of chain.slice(1, 200)) {
      ledger.add([entry]);
      expect(speaker.say(first).since).toBe(first);
    }
    ledger.add(chain.slice(200));
    expect(speaker.say(first).since).toBeUndefined();
  });
});

describe('wholeOf', () => {
  const before = { d: [{ sequence: 1, hash: one[0]!.hash }], e: [{ sequence: 2, hash: other[1]!.hash }] };
  const news = { d: [{ sequence: 3, hash: one[2]!.hash }] };
  const [mark, next] = ['a'.repeat(64), 'b'.repeat(64)];
  const said = { have: news, mark: next, since: mark, epoch: 's' };
  const known = { epoch: 's', have: before, mark };

  it('is the difference put on what was known, which stays as it was', () => {
    expect(wholeOf(known, said)).toEqual({ ...before, ...news });
    expect(before.d[0]!.sequence).toBe(1);
  });

  it('needs nothing known where everything is said', () => {
    expect(wholeOf(undefined, { have: news, epoch: 's' })).toBe(news);
  });

  it.each([
    ['nothing is known of the sender', undefined],
    ['I9: what is known is of an earlier life of its store', { ...known, epoch: 'r' }],
    ['something else is known than what the sender means', { ...known, mark: next }],
    ['what is known has no mark', { epoch: 's', have: before }],
  ])('is null where %s', (_, other) => {
    expect(wholeOf(other, said)).toBeNull();
  });
});
