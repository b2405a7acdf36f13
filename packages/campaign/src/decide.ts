import type { Draft, JsonObject } from '@firnbook/journal';
import { CORRECTED, JOINED, LINK_VERSION, WITHDRAWN } from './apply.ts';
import type { Command, Context, Decision, Doubt, Readings, Refusal } from './command.ts';
import { doubtsAbout } from './doubts.ts';
import { type Found, findHole, findRun, findThing } from './find.ts';
import type { Field, Kind } from './kind.ts';
import { fieldOf, kindOf, kinds } from './kinds.ts';
import { readReading } from './reading.ts';
import { numberIn } from './thing-view.ts';
import type { CampaignView, HoleView, ThingView } from './view.ts';

const REASON_MOST = 500;

/**
 * What a command comes to on this device: entries to write, with questions where something looks odd, or refusals.
 * Refused is only what could not be read back: text that is no reading, a word that is not on the list, a thing
 * that is not here, something required left out. Everything odd is taken and asked about; nothing blocks the work.
 */
export function decide(campaign: CampaignView, command: Command, context: Context): Decision {
  switch (command.do) {
    case 'open campaign':
      return openCampaign(command, context);
    case 'log':
      return log(campaign, command, context);
    case 'correct':
      return correct(campaign, command, context);
    case 'withdraw':
      return withdraw(campaign, command, context);
    case 'join':
      return join(campaign, command, context);
  }
}

type Of<Do extends Command['do']> = Extract<Command, { readonly do: Do }>;

function openCampaign(command: Of<'open campaign'>, context: Context): Decision {
  const campaignKind = kindOf('campaign')!;
  const personKind = kindOf('person')!;
  const campaign = checked(campaignKind, command.readings, null, true);
  const crew = command.crew.map(({ initials, name }) =>
    checked(personKind, name === undefined ? { initials } : { initials, name }, null, true),
  );
  const refusals = [campaign, ...crew].flatMap((one) => one.refusals);
  if (crew.length === 0 && context.by === '')
    refusals.push({
      field: 'crew',
      what: 'Nobody is named.',
      mend: 'Give the initials of at least one person.',
    });
  if (refusals.length > 0) return refused(refusals);
  const people = crew.map(({ readings }) => ({ id: context.newId(), readings }));
  const by = context.by === '' ? people[0]!.id : context.by;
  return taken(
    [
      draft(context, by, campaignKind.entry, campaignKind.version, { readings: campaign.readings }),
      ...people.map(({ id, readings }) => ({
        ...draft(context, by, personKind.entry, personKind.version, { readings }),
        id,
      })),
    ],
    [],
  );
}

function log(campaign: CampaignView, command: Of<'log'>, context: Context): Decision {
  const kind = kindOf(command.kind);
  if (kind === undefined || kind.kind === 'campaign')
    return refuse(
      undefined,
      `"${command.kind}" is not a kind of thing that can be logged.`,
      `Use one of: ${kinds
        .slice(1)
        .map((one) => one.kind)
        .join(', ')}.`,
    );
  const isInHole = kind.under === 'hole' && kind.kind !== 'hole';
  const hole = isInHole ? findHole(campaign, command.hole ?? '') : undefined;
  if (isInHole && hole === undefined)
    return refuse('hole', 'This hole is not in the book.', 'Open the hole first, or pick another.');
  const parent = parentField(kind);
  const named =
    parent === undefined || command.run === undefined || Object.hasOwn(command.readings, parent.name)
      ? command.readings
      : { ...command.readings, [parent.name]: command.run };
  const { readings, refusals } = checked(kind, named, hole ?? null, true);
  if (refusals.length > 0) return refused(refusals);
  // Whoever logs themself first is the person who says so.
  const id = context.newId();
  const by = context.by === '' && kind.kind === 'person' ? id : context.by;
  if (by === '') return nobody();
  const { run, ...own } = readings;
  const body: JsonObject = {
    ...(hole === undefined ? {} : { hole: hole.id }),
    ...(run === undefined ? {} : { run }),
    readings: own,
  };
  return taken(
    [{ ...draft(context, by, kind.entry, kind.version, body), id }],
    doubtsAbout({ kind, campaign, hole: hole ?? null, thing: null, readings, said: Object.keys(readings) }),
  );
}

function correct(campaign: CampaignView, command: Of<'correct'>, context: Context): Decision {
  const found = findThing(campaign, command.thing);
  if (found === undefined) return unknownThing();
  const { thing, hole } = found;
  const kind = kindOf(thing.kind)!;
  const { readings, refusals } = checked(kind, command.readings, hole, false);
  if (Object.keys(command.readings).length === 0)
    refusals.push({ what: 'No reading is given.', mend: 'Say which reading changes, and to what.' });
  refusals.push(...reasonProblems(command.reason));
  if (refusals.length > 0) return refused(refusals);
  if (context.by === '') return nobody();
  const corrects = claimants([thing], Object.keys(readings));
  const body: JsonObject = { ...place(found), thing: thing.id, readings };
  const merged = { ...textsOf(thing), ...readings };
  return taken(
    [link(context, CORRECTED, body, command.reason, corrects)],
    doubtsAbout({ kind, campaign, hole, thing, readings: merged, said: Object.keys(readings) }),
  );
}

function withdraw(campaign: CampaignView, command: Of<'withdraw'>, context: Context): Decision {
  const found = findThing(campaign, command.thing);
  if (found === undefined) return unknownThing();
  const refusals = reasonProblems(command.reason);
  if (refusals.length > 0) return refused(refusals);
  if (context.by === '') return nobody();
  const { thing, hole } = found;
  // Each of the things that were joined is withdrawn, so that a join told late can't bring one back unseen.
  const drafts = [thing.id, ...(thing.absorbed ?? [])].map((id) =>
    link(context, WITHDRAWN, { ...place(found), thing: id }, command.reason, []),
  );
  const doubts: Doubt[] = [];
  const pieces = hole?.runs
    .find((run) => run.id === thing.id)
    ?.pieces.filter((one) => one.withdrawn === null);
  if (pieces !== undefined && pieces.length > 0)
    doubts.push({
      field: 'number',
      what: `${thing.name} has ${pieces.length} ${pieces.length === 1 ? 'piece' : 'pieces'}; without it they count in no depth. Do they belong to another run?`,
      likely: [],
    });
  return taken(drafts, doubts);
}

function join(campaign: CampaignView, command: Of<'join'>, context: Context): Decision {
  const into = findThing(campaign, command.into);
  const from = findThing(campaign, command.from);
  if (into === undefined || from === undefined) return unknownThing();
  const kind = kindOf(into.thing.kind)!;
  const refusals: Refusal[] = [];
  if (into.thing.kind !== from.thing.kind || into.hole?.id !== from.hole?.id)
    refusals.push({
      what: `${from.thing.name} and ${into.thing.name} can't be one thing.`,
      mend: 'Join two things of one kind and one hole.',
    });
  else if (into.thing.id === from.thing.id)
    refusals.push({
      what: `${into.thing.name} is already one thing.`,
      mend: 'Pick another one to join it with.',
    });
  const { readings, refusals: unread } = checked(kind, command.readings ?? {}, into.hole, false);
  refusals.push(...unread, ...reasonProblems(command.reason));
  if (refusals.length > 0) return refused(refusals);
  if (context.by === '') return nobody();
  const corrects = claimants([into.thing, from.thing], Object.keys(readings));
  const body: JsonObject = { ...place(into), into: into.thing.id, from: from.thing.id, readings };
  const doubts = kind.fields.flatMap((field): Doubt[] => {
    const a = Object.hasOwn(into.thing.readings, field.name) ? into.thing.readings[field.name] : undefined;
    const b = Object.hasOwn(from.thing.readings, field.name) ? from.thing.readings[field.name] : undefined;
    if (a === undefined || b === undefined || Object.hasOwn(readings, field.name)) return [];
    const same =
      a.value !== null && b.value !== null ? Math.abs(a.value - b.value) < 1e-9 : a.text === b.text;
    if (same || field.quantity === 'thing') return [];
    return [
      {
        field: field.name,
        what: `The two say ${a.text} and ${b.text} for ${field.label}. Which one counts?`,
        likely: [a, b].map((one) => ({ label: one.text, readings: { [field.name]: one.text } })),
      },
    ];
  });
  return taken([link(context, JOINED, body, command.reason, corrects)], doubts);
}

/** Readings of a kind, each readable, words as the list writes them, things by id. */
function checked(
  kind: Kind,
  given: Readings,
  hole: HoleView | null,
  isWhole: boolean,
): { readonly readings: Record<string, string>; readonly refusals: Refusal[] } {
  const readings: Record<string, string> = {};
  const refusals: Refusal[] = [];
  for (const [name, text] of Object.entries(given)) {
    const field = fieldOf(kind, name);
    if (field === undefined) {
      refusals.push({
        field: name,
        what: `A ${kind.kind} has no "${name}".`,
        mend: `Use one of: ${kind.fields.map((one) => one.name).join(', ')}.`,
      });
      continue;
    }
    if (typeof text !== 'string') {
      refusals.push({
        field: name,
        what: `"${field.label}" is not text.`,
        mend: 'Give it as typed, with its unit.',
      });
      continue;
    }
    const read = readReading(text, field);
    if (!read.ok) {
      // Left blank where nothing has to be said is not a mistake.
      if (text.trim() === '' && isWhole && !field.required) continue;
      refusals.push({ field: name, what: read.what, mend: read.mend });
      continue;
    }
    const thing = field.quantity === 'thing' ? named(field.of, read.reading.word ?? '', hole) : null;
    if (thing === undefined)
      refusals.push({
        field: name,
        what: `There is no ${field.quantity === 'thing' ? field.of : 'thing'} "${text}" in this hole.`,
        mend: 'Pick one that is in the book.',
      });
    else readings[name] = thing?.id ?? (field.quantity === 'word' ? read.reading.word! : text.trim());
  }
  if (isWhole) refusals.push(...missing(kind, given));
  return { readings, refusals };
}

function missing(kind: Kind, given: Readings): readonly Refusal[] {
  return kind.fields
    .filter((field) => field.required && !Object.hasOwn(given, field.name))
    .map((field) => ({
      field: field.name,
      what: `A ${kind.kind} needs its ${field.label}.`,
      mend: field.quantity === 'word' ? `Say one of: ${field.words.join(', ')}.` : 'Type it.',
    }));
}

/** A run by id, name, old name or number. */
function named(kind: string, said: string, hole: HoleView | null): ThingView | undefined {
  if (hole === null || kind !== 'run') return undefined;
  const byId = findRun(hole, said);
  if (byId !== undefined) return byId;
  const standing = hole.runs.filter((run) => run.withdrawn === null);
  return (
    standing.find((run) => run.name === said.toUpperCase() || String(numberIn(run, 'number')) === said) ??
    standing.find((run) => run.aliases.includes(said.toUpperCase()))
  );
}

/** The field that a command's `run` fills. */
const parentField = (kind: Kind): Field | undefined =>
  kind.fields.find((field) => field.quantity === 'thing' && field.of === 'run');

/** Entries whose claims on these fields stand: the ones a new reading has to name to settle them all. */
function claimants(things: readonly ThingView[], fields: readonly string[]): readonly string[] {
  const entries = things.flatMap((thing) =>
    fields
      .filter((field) => Object.hasOwn(thing.readings, field))
      .flatMap((field) => {
        const reading = thing.readings[field]!;
        return [reading.entry, ...(reading.agreeing ?? []), ...reading.against.map((one) => one.entry)];
      }),
  );
  return [...new Set(entries)];
}

const textsOf = (thing: ThingView): Record<string, string> =>
  Object.fromEntries(Object.values(thing.readings).map((reading) => [reading.field, reading.text]));

const place = (found: Found): JsonObject => (found.hole === null ? {} : { hole: found.hole.id });

function draft(context: Context, by: string, kind: string, version: number, body: JsonObject): Draft {
  return { id: context.newId(), kind, version, observedAt: context.observedAt, by, body };
}

function link(
  context: Context,
  kind: string,
  body: JsonObject,
  reason: string,
  corrects: readonly string[],
): Draft {
  const bare = draft(context, context.by, kind, LINK_VERSION, body);
  return { ...bare, reason: reason.trim(), ...(corrects.length === 0 ? {} : { corrects }) };
}

function reasonProblems(reason: string): readonly Refusal[] {
  if (typeof reason !== 'string' || reason.trim() === '')
    return [
      {
        field: 'reason',
        what: 'No reason is given.',
        mend: 'Say why, in a few words: the old reading stays beside it.',
      },
    ];
  if (reason.length > REASON_MOST)
    return [
      {
        field: 'reason',
        what: `The reason has ${reason.length} characters.`,
        mend: `Keep it to ${REASON_MOST}.`,
      },
    ];
  return [];
}

const taken = (drafts: readonly Draft[], doubts: readonly Doubt[]): Decision => ({
  ok: true,
  drafts,
  doubts,
});

const refused = (refusals: readonly Refusal[]): Decision => ({ ok: false, refusals });

const refuse = (field: string | undefined, what: string, mend: string): Decision =>
  refused([field === undefined ? { what, mend } : { field, what, mend }]);

const nobody = (): Decision =>
  refuse('by', 'Nobody is named as the one who says so.', 'Pick your initials first.');

const unknownThing = (): Decision =>
  refuse(
    'thing',
    'This thing is not in the book on this device.',
    'Pick one that is shown, or wait until it has arrived.',
  );
