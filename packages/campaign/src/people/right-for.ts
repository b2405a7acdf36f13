import type { Command, Readings } from '../command.ts';
import { findThing } from '../find.ts';
import type { Kind, Right } from '../kind.ts';
import { fieldOf, kindOf } from '../kinds.ts';
import type { CampaignView } from '../view.ts';

/** From the one that most people have to the one that fewest have. */
const order: readonly Right[] = ['log', 'plan', 'signOff'];

const higher = (a: Right, b: Right): Right => (order.indexOf(a) < order.indexOf(b) ? b : a);

/** What it takes to say these fields of a thing of a kind. */
export function rightToSay(kind: Kind, fields: readonly string[]): Right {
  const own = fields.map((name) => fieldOf(kind, name)?.right ?? 'log');
  return own.reduce(higher, kind.right ?? 'log');
}

/** What it takes to withdraw a thing of a kind, to bring it back, to make two one: all its fields go along. */
export const rightToLink = (kind: Kind): Right =>
  rightToSay(
    kind,
    kind.fields.map((field) => field.name),
  );

/** The right that a command needs; `log` where its kind or thing is not known here, which decide then says. */
export function rightFor(command: Command, campaign: CampaignView): Right {
  switch (command.do) {
    case 'open campaign':
      return rightToSay(kindOf('campaign')!, said(command.readings));
    case 'log': {
      const kind = kindOf(command.kind);
      return kind === undefined ? 'log' : rightToSay(kind, said(command.readings));
    }
    case 'add':
    case 'correct': {
      const kind = kindOfThing(campaign, command.thing);
      return kind === undefined ? 'log' : rightToSay(kind, Object.keys(command.readings));
    }
    case 'withdraw':
    case 'restore':
      return ofLink(kindOfThing(campaign, command.thing));
    case 'join':
      return ofLink(kindOfThing(campaign, command.into));
  }
}

/** A field left blank in a form says nothing. */
const said = (readings: Readings): readonly string[] =>
  Object.keys(readings).filter((name) => String(readings[name]).trim() !== '');

function kindOfThing(campaign: CampaignView, id: string): Kind | undefined {
  const found = findThing(campaign, id);
  return found === undefined ? undefined : kindOf(found.thing.kind);
}

const ofLink = (kind: Kind | undefined): Right => (kind === undefined ? 'log' : rightToLink(kind));
