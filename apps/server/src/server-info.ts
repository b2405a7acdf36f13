import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Where the server of a data folder can be reached, for the command line. Whether it runs, the lock decides. */
export interface ServerInfo {
  /** "http://127.0.0.1:7411" */
  readonly address: string;
  readonly pid: number;
}

export function writeServerInfo(dataFolder: string, info: ServerInfo): void {
  const file = infoFile(dataFolder);
  writeFileSync(`${file}.new`, JSON.stringify(info));
  renameSync(`${file}.new`, file);
}

/** Null when no server left word; one that was killed leaves word too, so ask /api/health before relying on it. */
export function readServerInfo(dataFolder: string): ServerInfo | null {
  try {
    const info = JSON.parse(readFileSync(infoFile(dataFolder), 'utf8')) as ServerInfo;
    return typeof info.address === 'string' && typeof info.pid === 'number' ? info : null;
  } catch {
    return null;
  }
}

export function removeServerInfo(dataFolder: string): void {
  rmSync(infoFile(dataFolder), { force: true });
}

function infoFile(dataFolder: string): string {
  return join(dataFolder, 'server.json');
}
