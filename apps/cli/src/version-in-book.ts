import { type HoleView, standing, type ThingView } from '@firnbook/campaign';
import { readVersion, type VersionFile } from '@firnbook/exchange';
import type { Desk, OpenBook } from './desk.ts';
import { CommandError } from './refusal.ts';

/** Signed-off versions of a hole's depths, oldest first. */
const versionsOf = (hole: HoleView): readonly ThingView[] => standing(hole.others['depth version']);

const text = (version: ThingView, field: string): string => version.readings[field]?.text ?? '';

/** Undefined where no version of the hole has this name. */
export const versionCalled = (hole: HoleView, name: string): ThingView | undefined =>
  versionsOf(hole).find((one) => text(one, 'name').toLowerCase() === name.toLowerCase());

/** @throws CommandError where there is no such version, or its file has not arrived */
export const versionFromBook = async (
  desk: Desk,
  opened: OpenBook,
  hole: HoleView,
  name: string,
): Promise<VersionFile> => {
  const version = versionCalled(hole, name);
  if (version === undefined) {
    const names = versionsOf(hole).map((one) => text(one, 'name'));
    throw new CommandError(
      `there is no file, folder or version "${name}"`,
      `hole ${hole.letter}`,
      names.length === 0
        ? 'Sign one off with firnbook sign-off, or name a folder.'
        : `Versions of this hole: ${names.join(', ')}.`,
    );
  }
  const sha256 = text(version, 'table');
  const bytes = await desk.camp.attachment(opened.campaign, sha256);
  if (bytes === null)
    throw new CommandError(
      'the file of this version is not on the camp computer, or not whole',
      `version ${text(version, 'name')}, SHA-256 ${sha256}`,
      'It comes with the tablet that signed it off; bring that one into the camp network.',
    );
  return readVersion({ name: `version ${text(version, 'name')}`, bytes });
};
