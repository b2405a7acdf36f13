import { closeSync, fsyncSync, openSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import type { Entry } from '@firnbook/journal';
import { flushFile } from './flush.ts';

/** What lies beside a journal so that people can read it without this program. */
export interface PlainCopy {
  write(entry: Entry): void;
  /** @param digest of all entries; @returns the name of the file with them */
  finish(campaign: string, entries: number, digest: string, madeAt: string): string;
}

const plainName = 'entries.jsonl';

/** One entry a line, as JSON: hash, head, readings. */
export function openPlainCopy(folder: string): PlainCopy {
  const file = join(folder, plainName);
  const handle = openSync(file, 'wx');
  let lines: string[] = [];
  let size = 0;
  const flush = () => {
    writeSync(handle, lines.join(''));
    lines = [];
    size = 0;
  };
  return {
    write({ sealed: { hash, head, body, signature } }) {
      // head and body stand there as they were hashed: whoever reads the line can check it
      const line = `{"hash":"${hash}","signature":${JSON.stringify(signature)},"head":${head},"body":${body}}\n`;
      lines.push(line);
      size += line.length;
      if (size > 1_000_000) flush();
    },
    finish(campaign, entries, digest, madeAt) {
      flush();
      fsyncSync(handle);
      closeSync(handle);
      const note = join(folder, 'READ-ME.txt');
      writeFileSync(note, readMe(campaign, entries, digest, madeAt), { flag: 'wx' });
      flushFile(note);
      return file;
    },
  };
}

const readMe = (campaign: string, entries: number, digest: string, madeAt: string): string =>
  `The record of an ice-coring campaign, as it was when this copy was made.

Campaign  ${campaign}
Made at   ${madeAt} (UTC, by the clock of the camp computer)
Entries   ${entries}
Digest    ${digest}

journal.sqlite   the record, a SQLite 3 database. Firnbook brings it back with: firnbook recover <this stick>
entries.jsonl    the same for people and other programs: one entry a line, JSON in UTF-8
backup.json      what this copy holds, and the last entry of every device

An entry is what one person said on one device at one time. "head" says who, when, what kind, and which entry of the
same device came before ("previous"); "body" holds the readings, each with the unit it was typed in. An entry whose
head has "corrects" takes the place of the ones named there; nothing is ever changed or taken out.

To check a line: the SHA-256 of the text of "head", as it stands between the braces, is "hash"; that of "body" is
"bodyHash" in the head. The digest is the SHA-256 of all hashes in ascending order, each followed by a line feed.

Attachments (photographs, tables) lie in ../attachments; the name of each is the SHA-256 of its bytes.
`;
