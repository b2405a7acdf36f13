import type { Command } from '../command.ts';
import type { ThingView, UsedRight } from '../view.ts';

/** Ids in one entry: 36 characters and a space each, with room left. */
const MOST = 200;

/** What lets stand everything that was written without a right: one command, several where it is very much. */
export function lettingStand({ person, right, entries }: UsedRight): readonly Command[] {
  const commands: Command[] = [];
  for (let at = 0; at < entries.length; at += MOST)
    commands.push({
      do: 'log',
      kind: 'settled right',
      readings: { person, right, entries: entries.slice(at, at + MOST).join(' ') },
    });
  return commands;
}

/** What says a word of a person or the campaign: a first reading, or a new one beside the old with its reason. */
export function saying(thing: ThingView, field: string, word: string, reason: string): Command {
  const readings = { [field]: word };
  return Object.hasOwn(thing.readings, field)
    ? { do: 'correct', thing: thing.id, readings, reason }
    : { do: 'add', thing: thing.id, readings };
}
