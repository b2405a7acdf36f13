import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runProgram } from './program.ts';

/** A folder for one test, gone afterwards. */
export const inFolder = async (work: (folder: string) => Promise<void>): Promise<void> => {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-cli-'));
  try {
    await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

export const put = (folder: string, files: Readonly<Record<string, string>>): void => {
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
};

/** Begins the invented campaign with hole B in a data folder. */
export const beginCampaign = (data: string) =>
  firnbook(
    ...['new', 'Ceredin Saddle', '--hole', 'B', '--zero', 'snow surface'],
    ...['--initials', 'KM', '--data', data],
  );

/** One command line inside this process; what it said. */
export const firnbook = async (...words: readonly string[]) => {
  let out = '';
  let err = '';
  const code = await runProgram(words, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    isPerson: false,
    ask: null,
    env: {},
  });
  return { code, out, err };
};
