import { createHash, createPrivateKey, X509Certificate } from 'node:crypto';
import { existsSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import {
  backUpFiles,
  type FilesBackup,
  isTrouble,
  listFilesBackups,
  readFilesBackup,
  restoreFiles,
  trouble,
} from '@firnbook/storage/sqlite';
import { authorityName } from './certificates.ts';
import { parseDevices } from './devices.ts';
import { readPrivate } from './private-file.ts';
import { networkFolder, parseSettings } from './settings.ts';

/**
 * What makes another computer the camp computer to tablets: the authority that they installed, who is paired, and the
 * crew's PINs. The server's own certificate is made anew under that authority.
 */
const names = ['authority.key.pem', 'authority.pem', 'devices.json', 'network.json', 'pins.json'] as const;

/** Beside the campaigns' folders; no campaign can have this name. */
const shelfOn = (target: string): string => join(target, 'camp_network');

/** What a stick says of the camp network on it. */
interface KeptNetwork {
  readonly generation: number;
  readonly madeAt: string;
  /** Host name of the camp computer; null where no certificate was made yet. */
  readonly host: string | null;
  /** Devices that may come in. */
  readonly devices: number;
}

/** A camp network that was brought back. */
export interface RecoveredNetwork extends KeptNetwork {
  /** Newer generations that are not whole, each with what is wrong with it. */
  readonly passedOver: readonly string[];
}

/** Whether a medium lacks what the camp network is now. */
export function lacksNetwork(dataFolder: string, target: string): boolean {
  const files = filesIn(dataFolder);
  return files.size > 0 && newestMark(target) !== markOf(files);
}

/**
 * Copies the camp network, flushed and read back, as a new generation beside the campaigns. Null where there is nothing
 * to copy, or the newest generation says the same.
 *
 * @throws StoreTrouble as `backUpFiles`
 */
export function backUpNetwork(dataFolder: string, target: string): FilesBackup | null {
  const files = filesIn(dataFolder);
  if (files.size === 0 || newestMark(target) === markOf(files)) return null;
  return backUpFiles(files, shelfOn(target), markOf(files));
}

/** Takes the camp network's copies off a medium. False where there are none. */
export function takeNetworkOff(target: string): boolean {
  if (!existsSync(shelfOn(target))) return false;
  rmSync(shelfOn(target), { recursive: true });
  return true;
}

/** When the camp network was last copied to a medium, ISO 8601 (UTC); null where it never was. */
export function networkCopiedAt(target: string): string | null {
  const newest = listFilesBackups(shelfOn(target)).at(-1);
  if (newest === undefined) return null;
  try {
    return readFilesBackup(newest).note.madeAt;
  } catch {
    return null;
  }
}

/** Whether a data folder has a camp network of its own, which nothing may overwrite. */
export const hasNetwork = (dataFolder: string): boolean => filesIn(dataFolder).size > 0;

/**
 * The newest camp network on a medium that is whole; null where there is none.
 *
 * @throws StoreTrouble 'damaged' where there are some and none is whole
 */
export function networkOn(target: string): RecoveredNetwork | null {
  return listFilesBackups(shelfOn(target)).length === 0 ? null : newestWhole(target).told;
}

/**
 * Brings the camp network back into a data folder that has none: tablets find the authority that they know, and come in
 * as they are.
 *
 * @param dataFolder whose lock is the caller's
 * @throws StoreTrouble 'refused' where there is one, 'missing' where the medium holds none, 'damaged' where none is whole
 */
export function recoverNetwork(dataFolder: string, target: string): RecoveredNetwork {
  if (hasNetwork(dataFolder))
    throw trouble(
      'refused',
      'This computer has a camp network of its own already',
      networkFolder(dataFolder),
      'Nothing was overwritten. If the one on the stick is wanted, move that folder away first.',
    );
  const { told, files } = newestWhole(target);
  const place = networkFolder(dataFolder);
  // An empty folder is no network; a full one is somebody's.
  if (existsSync(place) && readdirSync(place).length > 0)
    throw trouble(
      'refused',
      'There is something else in the place of the camp network',
      place,
      'Move it away first.',
    );
  rmSync(place, { recursive: true, force: true });
  restoreFiles(files, place);
  return told;
}

/** Walks back from the newest generation until one is whole and of use. */
function newestWhole(target: string): {
  readonly told: RecoveredNetwork;
  readonly files: ReadonlyMap<string, string>;
} {
  const passedOver: string[] = [];
  for (const generation of listFilesBackups(shelfOn(target)).toReversed()) {
    try {
      const { note, files } = readFilesBackup(generation);
      const known = new Map([...files].filter(([name]) => names.some((one) => one === name)));
      const { madeAt } = note;
      const told = { generation: note.generation, madeAt, ...examine(known, generation), passedOver };
      return { told, files: known };
    } catch (error) {
      if (!isTrouble(error)) throw error;
      passedOver.push(`${generation}: ${error.what}`);
    }
  }
  throw passedOver.length === 0
    ? trouble('missing', 'There is no camp network on it', target, 'Try the other stick.')
    : trouble(
        'damaged',
        `No copy of the camp network on it is whole (${passedOver.join('; ')})`,
        target,
        'Try the other stick. Without one: firnbook network use, then pair every tablet again.',
      );
}

/** Reads all of it as the server will. */
function examine(
  files: ReadonlyMap<string, string>,
  generation: string,
): Pick<KeptNetwork, 'host' | 'devices'> {
  const damaged = (what: string, cause?: unknown) =>
    trouble(
      'damaged',
      `This copy of the camp network can not be used: ${what}`,
      generation,
      'Use another generation, or the other stick.',
      cause,
    );
  const [key, certificate] = [files.get('authority.key.pem'), files.get('authority.pem')];
  if ((key === undefined) !== (certificate === undefined))
    throw damaged('one half of the authority is missing');
  const devices = parseDevices(files.get('devices.json') ?? '[]');
  if (devices === null) throw damaged('the list of devices can not be read');
  const settings = files.get('network.json');
  if (settings !== undefined && parseSettings(settings) === null)
    throw damaged('the settings can not be read');
  try {
    if (
      key !== undefined &&
      certificate !== undefined &&
      !new X509Certificate(certificate).checkPrivateKey(createPrivateKey(key))
    )
      throw new Error('the key is not that of the certificate');
    return {
      host: certificate === undefined ? null : authorityName(certificate),
      devices: devices.filter(({ revokedAt }) => revokedAt === null).length,
    };
  } catch (error) {
    throw damaged(error instanceof Error ? error.message : String(error), error);
  }
}

function filesIn(dataFolder: string): ReadonlyMap<string, string> {
  const found = names.map((name) => [name, readPrivate(join(networkFolder(dataFolder), name))] as const);
  return new Map(found.flatMap(([name, text]) => (text === null ? [] : [[name, text] as const])));
}

/** When a device was last here changes every few minutes, and is no reason for another generation. */
function markOf(files: ReadonlyMap<string, string>): string {
  const digest = createHash('sha256');
  for (const [name, text] of files) {
    const lasting = name === 'devices.json' ? text.replace(/"lastSeen": ?"[^"]*"/g, '') : text;
    digest.update(`${name} ${lasting.length}\n${lasting}`);
  }
  return digest.digest('hex');
}

/** Null where the newest generation is not whole: then another one is due. */
function newestMark(target: string): string | null {
  const newest = listFilesBackups(shelfOn(target)).at(-1);
  if (newest === undefined) return null;
  try {
    return readFilesBackup(newest).note.mark;
  } catch {
    return null;
  }
}
