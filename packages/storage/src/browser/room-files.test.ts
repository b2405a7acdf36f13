import { describe, expect, it } from 'vitest';
import { FakeFile } from './fake-files.suite.ts';
import { layMore, letGo, probe, sing } from './room-files.ts';

const megabyte = 2 ** 20;

describe('the files that keep room', () => {
  it('ballast grows a megabyte at a time up to its size, and is no row of zeros that a disk could leave out', () => {
    const file = new FakeFile();
    expect([layMore(file, 2.5 * megabyte), layMore(file, 2.5 * megabyte)]).toEqual([megabyte, 2 * megabyte]);
    expect(layMore(file, 2.5 * megabyte)).toBe(2.5 * megabyte);
    expect(layMore(file, 2.5 * megabyte)).toBe(2.5 * megabyte);
    expect(new Set(file.bytes.subarray(-4096)).size).toBeGreaterThan(200);
  });

  it('ballast that reads back otherwise is no ballast', () => {
    const file = new FakeFile();
    const read = file.read.bind(file);
    file.read = (into, place) => {
      const count = read(into, place);
      into[7] = (into[7] ?? 0) ^ 1;
      return count;
    };
    expect(() => layMore(file, megabyte)).toThrow('did not read back');
  });

  it('ballast that does not fit says so and takes nothing', () => {
    const file = new FakeFile();
    file.room = 1.5 * megabyte;
    layMore(file, 3 * megabyte);
    expect(() => layMore(file, 3 * megabyte)).toThrow(
      expect.objectContaining({ name: 'QuotaExceededError' }),
    );
    expect(file.getSize()).toBe(megabyte);
    letGo(file);
    expect(file.getSize()).toBe(0);
  });

  it('the canary takes new room at each song, begins anew at a megabyte, and fails where the room ends', () => {
    const file = new FakeFile();
    for (let songs = 1; songs <= 64; songs += 1) {
      sing(file, 16_384, songs === 64);
      expect(file.getSize()).toBe(songs * 16_384);
    }
    sing(file, 16_384, false);
    expect(file.getSize()).toBe(16_384);
    file.room = 20_000;
    expect(() => sing(file, 16_384, false)).toThrow(expect.objectContaining({ name: 'QuotaExceededError' }));
    expect(file.getSize()).toBe(16_384);
  });

  it('a probe leaves nothing behind, whether it fits or not', () => {
    const file = new FakeFile();
    probe(file, 30_000);
    expect(file.getSize()).toBe(0);
    file.room = 29_999;
    expect(() => probe(file, 30_000)).toThrow(expect.objectContaining({ name: 'QuotaExceededError' }));
    expect(file.getSize()).toBe(0);
  });
});
