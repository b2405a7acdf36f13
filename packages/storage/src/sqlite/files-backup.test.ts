import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backUpFiles, listFilesBackups, readFilesBackup, restoreFiles } from './files-backup.ts';
import { inFolder } from './folders.suite.ts';

const files = new Map([
  ['key.pem', 'of the camp at the Ceredin Saddle\n'],
  ['devices.json', '[{"name":"tablet 3"}]'],
]);

describe('a backup of small files', () => {
  it('control: comes back as it was, for this account alone', () =>
    inFolder((folder) => {
      const shelf = join(folder, 'stick', 'shelf');
      const note = backUpFiles(files, shelf, 'one');
      expect(note).toMatchObject({ generation: 1, mark: 'one' });
      const [generation] = listFilesBackups(shelf);
      const read = readFilesBackup(generation!);
      expect([...read.files].sort()).toEqual([...files].sort());
      expect(statSync(join(generation!, 'key.pem')).mode & 0o777).toBe(0o600);
      const place = join(folder, 'new', 'network');
      restoreFiles(read.files, place);
      expect(readdirSync(place).sort()).toEqual([...files.keys()].sort());
      expect(statSync(place).mode & 0o777).toBe(0o700);
      expect(statSync(join(place, 'key.pem')).mode & 0o777).toBe(0o600);
      // nothing that lies there is overwritten
      expect(() => restoreFiles(new Map([['key.pem', 'another']]), place)).toThrow();
      expect(readFileSync(join(place, 'key.pem'), 'utf8')).toBe(files.get('key.pem'));
    }));

  it.each<[string, (generation: string) => void, RegExp]>([
    [
      'a changed byte',
      (at) => writeFileSync(join(at, 'key.pem'), 'of the camp at the Ceredin Sattle\n'),
      /not what was/,
    ],
    [
      'a file cut short',
      (at) => writeFileSync(join(at, 'devices.json'), '[{"name":'),
      /not what was written/,
    ],
    ['a missing file', (at) => rmSync(join(at, 'key.pem')), /key.pem is gone/],
    ['a missing note', (at) => rmSync(join(at, 'backup.json')), /no finished backup/],
    ['a torn note', (at) => writeFileSync(join(at, 'backup.json'), '{"product":'), /no finished backup/],
    [
      'a note of a later version',
      (at) => writeFileSync(join(at, 'backup.json'), '{"files":2}'),
      /does not know/,
    ],
    [
      'a note that names a file elsewhere',
      (at) => {
        const note = JSON.parse(readFileSync(join(at, 'backup.json'), 'utf8'));
        const sha256 = { '../key.pem': note.sha256['key.pem'] };
        writeFileSync(join(at, '..', 'key.pem'), files.get('key.pem')!);
        writeFileSync(join(at, 'backup.json'), JSON.stringify({ ...note, sha256 }));
      },
      /key.pem is gone/,
    ],
  ])('with %s is not taken', (_what, harm, says) =>
    inFolder((folder) => {
      backUpFiles(files, folder, 'one');
      const [generation] = listFilesBackups(folder);
      harm(generation!);
      expect(() => readFilesBackup(generation!)).toThrow(says);
    }),
  );

  it('twelve generations stay; one that was not finished counts for nothing and is in nobody’s way', () =>
    inFolder((folder) => {
      mkdirSync(join(folder, 'generation-0001.unfinished-7'));
      for (let number = 1; number <= 15; number += 1) backUpFiles(files, folder, String(number));
      const left = listFilesBackups(folder).map((path) => Number(path.slice(-4)));
      expect(left).toEqual([4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15]);
      expect(readFilesBackup(listFilesBackups(folder).at(-1)!).note.mark).toBe('15');
    }));
});
