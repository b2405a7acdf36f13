import { depthVersion } from '@firnbook/campaign';
import { solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { readVersion, writeVersion } from './version-file.ts';

const readings = {
  runs: [
    { id: 'r1', from: 0, to: 0.9 },
    { id: 'r2', from: 0.9, to: 1.8 },
  ],
  pieces: [
    { id: 'p1', run: 'r1', length: 0.87, topBreak: 'fits' as const },
    { id: 'p2', run: 'r2', length: 0.89, topBreak: 'unsure' as const },
  ],
  soundings: [],
};
const version = depthVersion('v1', 'CER-B', readings, solveDepths(readings), ['e1', 'e2']);
const names = new Map([['p1', 'B-P001.1']]);
const text = writeVersion({ version, names });
const read = (changed: string) =>
  readVersion({ name: 'version.json', bytes: new TextEncoder().encode(changed) });

describe('readVersion', () => {
  it('gives back what writeVersion wrote, to the last bit', () => {
    expect(read(text)).toEqual({ version, names });
    expect(writeVersion(read(text))).toBe(text);
  });

  it('keeps what this build does not know', () => {
    const more = text.replace('"hole":', '"later":{"a":1},"hole":');
    expect(read(more).version).toMatchObject({ later: { a: 1 } });
  });

  it.each([
    ['a table', 'run,piece\n1,1\n', /it is not JSON/],
    ['other JSON', '{"format":"something"}', /does not begin as "firnbook depth version 1"/],
    ['a part missing', text.replace('"pieces":', '"lost":'), /a part of the version is missing/],
    ['an edited reading', text.replace('"length":0.87', '"length":0.78'), /their digest is another one/],
  ])('refuses %s, with the name of the file', (_, changed, words) => {
    expect(() => read(changed)).toThrow(words);
    expect(() => read(changed)).toThrow(/^version\.json: /);
  });
});
