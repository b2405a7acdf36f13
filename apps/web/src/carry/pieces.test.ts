import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { startPieceTalk } from './pieces.ts';

const mebibyte = 1024 * 1024;
const picture = Uint8Array.from({ length: 3 * mebibyte + 11 }, (_, at) => (at * 13 + (at >> 8)) % 249);
const name = createHash('sha256').update(picture).digest('hex');
const place = `/api/campaigns/cer/attachments/${name}/pieces`;
const noPause = async () => undefined;

/** A camp computer with one file, and a connection that breaks at the calls that the test names. */
function campWith(held: Uint8Array, breaks: (call: number) => 'before' | 'after' | null = () => null) {
  let kept: number[] = [...held];
  const calls: string[] = [];
  const state = () => ({ received: kept.length, isWhole: kept.length === picture.length });
  const json = (value: unknown, status = 200) => new Response(JSON.stringify(value), { status });
  const ask = (async (path: string, init: RequestInit = {}) => {
    calls.push(`${init.method ?? 'GET'} ${path.slice(place.length)}`);
    const broken = breaks(calls.length);
    if (broken === 'before') throw new TypeError('Failed to fetch');
    const offset = /\/(\d+)/.exec(path.slice(place.length))?.[1];
    let answer: Response;
    if (init.method === 'PUT') {
      if (Number(offset) === kept.length) kept = [...kept, ...(init.body as Uint8Array)];
      answer = json(state());
    } else if (offset === undefined) answer = json(state());
    else answer = new Response(Uint8Array.from(kept.slice(Number(offset), Number(offset) + mebibyte)));
    // It arrived, and nobody here hears of it.
    if (broken === 'after') throw new TypeError('Failed to fetch');
    return answer;
  }) as typeof fetch;
  return { ask, calls, bytes: () => Uint8Array.from(kept) };
}

describe('a file in pieces to the camp computer', () => {
  it('goes on from what is there already', async () => {
    const camp = campWith(picture.subarray(0, 2 * mebibyte));
    await startPieceTalk(camp.ask, noPause).send(place, picture);
    expect(camp.calls).toEqual([
      'GET ',
      `PUT /${2 * mebibyte}?size=${picture.length}`,
      `PUT /${3 * mebibyte}?size=${picture.length}`,
    ]);
    expect(Buffer.compare(camp.bytes(), picture)).toBe(0);
  });

  it.each(['before', 'after'] as const)(
    'a connection that breaks %s a piece arrives costs that piece at most',
    async (when) => {
      const camp = campWith(new Uint8Array(0), (call) => (call % 3 === 0 ? when : null));
      await startPieceTalk(camp.ask, noPause).send(place, picture);
      expect(Buffer.compare(camp.bytes(), picture)).toBe(0);
      expect(camp.calls.filter((call) => call.startsWith('PUT')).length).toBeLessThanOrEqual(4 + 3);
    },
  );

  it('gives up where nothing gets through, and the next try goes on from there', async () => {
    let isUp = true;
    const camp = campWith(new Uint8Array(0), (call) => (call > 3 && !isUp ? 'before' : null));
    isUp = false;
    const talk = startPieceTalk(camp.ask, noPause);
    await expect(talk.send(place, picture)).rejects.toThrow('Failed to fetch');
    expect(camp.bytes()).toHaveLength(2 * mebibyte);
    isUp = true;
    const before = camp.calls.length;
    await talk.send(place, picture);
    expect(camp.calls.slice(before)).toHaveLength(3);
    expect(Buffer.compare(camp.bytes(), picture)).toBe(0);
  });

  it('a refusal is not asked again', async () => {
    let calls = 0;
    const full = (async () => {
      calls += 1;
      return new Response('{}', { status: 507 });
    }) as unknown as typeof fetch;
    await expect(startPieceTalk(full, noPause).send(place, picture)).rejects.toThrow('507');
    expect(calls).toBe(1);
  });
});

describe('a file in pieces from the camp computer', () => {
  it('comes whole over a connection that breaks, and goes on later from what came', async () => {
    let isUp = false;
    const camp = campWith(picture, (call) => (call > 3 && !isUp ? 'before' : null));
    const talk = startPieceTalk(camp.ask, noPause);
    await expect(talk.fetch(place, name)).rejects.toThrow('Failed to fetch');
    isUp = true;
    const before = camp.calls.length;
    expect(Buffer.compare((await talk.fetch(place, name))!, picture)).toBe(0);
    expect(camp.calls.slice(before)).toEqual(['GET ', `GET /${2 * mebibyte}`, `GET /${3 * mebibyte}`]);
  });

  it('is null where it is not there whole, or not what its name says', async () => {
    expect(await startPieceTalk(campWith(picture.subarray(0, 9)).ask, noPause).fetch(place, name)).toBeNull();
    const other = Uint8Array.from(picture).fill(0, 5, 9);
    expect(await startPieceTalk(campWith(other).ask, noPause).fetch(place, name)).toBeNull();
  });
});
