import { noAnswer, runningServer } from './camp.ts';
import { fetchInTime, jsonOf } from './fetch-in-time.ts';
import { CommandError } from './refusal.ts';

/** One request to the server that runs on this data folder; its own words where it refuses. */
export const askServer = async (folder: string, path: string, method: 'GET' | 'POST'): Promise<unknown> => {
  const address = await runningServer(folder);
  if (address === null)
    throw new CommandError('no server runs on this data folder', folder, 'Start it first: firnbook start.');
  const answer = await fetchInTime(address + path, { method }, 20_000).catch(() => {
    throw noAnswer(address);
  });
  const said = jsonOf(answer);
  if (answer.ok) return said;
  const { what, mend } = (said ?? {}) as { what?: string; mend?: string };
  throw new CommandError(
    what ?? `the server answered ${answer.status}`,
    address,
    mend ?? 'Look at the lines that the server prints.',
  );
};
