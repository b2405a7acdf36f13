import { describe, expect, it } from 'vitest';
import { FakeFile } from './fake-files.suite.ts';
import { addLines, endOf, pageOf } from './lines.ts';

const three = ['{"a":1}', '"zwölf Komma drei"', '[3]'];
const fill = (lines: readonly string[]) => {
  const file = new FakeFile();
  addLines(file, lines, 0);
  return file;
};
const all = (file: FakeFile, room?: number) => {
  const lines: string[] = [];
  for (let from: number | null = 0; from !== null; ) {
    const page = pageOf(file, from, room);
    lines.push(...page.lines);
    from = page.next;
  }
  return lines;
};

describe('a file of lines', () => {
  it('an empty one has no last line, no page, and takes the first line', () => {
    const file = new FakeFile();
    expect(endOf(file)).toEqual({ line: null, size: 0 });
    expect(pageOf(file, 0)).toEqual({ lines: [], next: null });
    expect(addLines(file, ['1'], 0)).toBe(2);
  });

  it('gives back every line, however small the pages and the looks from the end are', () => {
    const file = fill(three);
    for (const step of [1, 2, 5, 8, 1000]) {
      expect(all(file, step)).toEqual(three);
      expect(endOf(file, step)).toEqual({ line: '[3]', size: file.getSize() });
    }
  });

  it('cut at any byte, it keeps each line that was whole and goes on behind the last of them', () => {
    const whole = fill(three);
    const ends = [...whole.bytes].flatMap((byte, index) => (byte === 10 ? [index + 1] : []));
    for (let size = 0; size <= whole.getSize(); size += 1) {
      const file = fill(three);
      file.truncate(size);
      const kept = ends.filter((end) => end <= size);
      const end = endOf(file, 3);
      expect(end.size).toBe(kept.at(-1) ?? 0);
      expect(addLines(file, ['"next"'], end.size)).not.toBeNull();
      expect(all(file)).toEqual([...three.slice(0, kept.length), '"next"']);
    }
  });

  it('zeros that a power cut left at the end are cut off; a line spoilt in the middle costs that line alone', () => {
    const file = fill(three);
    file.write(new Uint8Array([0, 0, 0, 10, 0, 0]), { at: file.getSize() });
    expect(endOf(file).line).toBe('[3]');
    addLines(file, ['4'], endOf(file).size);
    file.write(new Uint8Array([0]), { at: 9 });
    expect(all(file)).toEqual(['{"a":1}', '[3]', '4']);
  });

  it('adds nothing where somebody else has added meanwhile', () => {
    const file = fill(three);
    expect(addLines(file, ['4'], file.getSize() - 4)).toBeNull();
    expect(all(file)).toEqual(three);
  });

  it('a full disk is told, and what was half written is taken back', () => {
    const file = fill(three);
    const size = file.getSize();
    file.room = size + 3;
    expect(() => addLines(file, ['"too long"'], size)).toThrow(/3 of 11 bytes/);
    expect(file.getSize()).toBe(size);
  });
});
