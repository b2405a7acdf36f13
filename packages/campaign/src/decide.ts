import type { Draft, JsonObject } from '@firnbook/journal';
import { ADDED, CORRECTED, JOINED, LINK_VERSION, RESTORED, WITHDRAWN } from './apply.ts';
import { checked, isWritable } from './checked.ts';
import type { Command, Context, Decision, Doubt, Refusal } from './command.ts';
import { doubtsAbout } from './doubts.ts';
import { type Found, findHole, findThing } from './find.ts';
import { nameSentence } from './frozen-names.ts';
import type { Field, Kind } from './kind.ts';
import { kindOf, kinds } from './kinds.ts';
import { barred, keys, keysOf } from './people/decide.ts';
import { asItIs, fieldText, wordText } from './texts/called.ts';
import { type Sentence, sentence } from './texts/sentence.ts';
import type { CampaignView, ThingView } from './view.ts';

const REASON_MOST = 500;

/**
 * What a command comes to on this device: entries to write, with questions where something looks odd, or refusals.
 * Refused is only what could not be read back: text that is no reading, a word that is not on the list, a thing
 * that is not here, something required left out, and what the person has no right to. Everything odd is taken and asked
 * about; nothing blocks the work.
 */
export function decide(campaign: CampaignView, command: Command, context: Context): Decision {
  const bar = barred(campaign, command, context);
  if (bar !== null) return refused([bar]);
  const decision = decided(campaign, command, context);
  if (!decision.ok) return decision;
  const first = keysOf(campaign, command, context);
  return first.length === 0 ? decision : { ...decision, drafts: [...first, ...decision.drafts] };
}

function decided(campaign: CampaignView, command: Command, context: Context): Decision {
  switch (command.do) {
    case 'open campaign':
      return openCampaign(campaign, command, context);
    case 'log':
      return log(campaign, command, context);
    case 'add':
      return add(campaign, command, context);
    case 'correct':
      return correct(campaign, command, context);
    case 'withdraw':
      return withdraw(campaign, command, context);
    case 'restore':
      return restore(campaign, command, context);
    case 'join':
      return join(campaign, command, context);
  }
}

type Of<Do extends Command['do']> = Extract<Command, { readonly do: Do }>;

function openCampaign(view: CampaignView, command: Of<'open campaign'>, context: Context): Decision {
  const campaignKind = kindOf('campaign')!;
  const personKind = kindOf('person')!;
  const campaign = checked(campaignKind, command.readings, view, null, true);
  const crew = command.crew.map(({ initials, name }) =>
    checked(personKind, name === undefined ? { initials } : { initials, name }, view, null, true),
  );
  const refusals = [campaign, ...crew].flatMap((one) => one.refusals);
  if (crew.length === 0 && context.by === '')
    refusals.push({
      field: 'crew',
      what: sentence('refuse.no.crew'),
      mend: sentence('mend.no.crew'),
    });
  if (refusals.length > 0) return refused(refusals);
  const isByName = campaign.readings.rights === 'by name';
  const people = crew.map(({ readings }, index) => ({
    id: context.newId(),
    readings: isByName && index === 0 ? { ...readings, ...keys } : readings,
  }));
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
      sentence('refuse.kind', { word: String(command.kind) }),
      sentence('mend.one.of', { words: kinds.slice(1).map((one) => one.kind) }),
    );
  const isInHole = kind.under === 'hole' && kind.kind !== 'hole';
  const hole = isInHole ? findHole(campaign, command.hole ?? '') : undefined;
  if (isInHole && hole === undefined) return refuse('hole', sentence('refuse.hole'), sentence('mend.hole'));
  const parent = parentField(kind);
  const named =
    parent === undefined || command.run === undefined || Object.hasOwn(command.readings, parent.name)
      ? command.readings
      : { ...command.readings, [parent.name]: command.run };
  const { readings, refusals } = checked(kind, named, campaign, hole ?? null, true);
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

function add(campaign: CampaignView, command: Of<'add'>, context: Context): Decision {
  const found = findThing(campaign, command.thing);
  if (found === undefined) return unknownThing();
  const { thing, hole } = found;
  const kind = kindOf(thing.kind)!;
  const { readings, refusals } = checked(kind, command.readings, campaign, hole, false);
  if (Object.keys(command.readings).length === 0)
    refusals.push({ what: sentence('refuse.no.reading'), mend: sentence('mend.add.reading') });
  for (const field of Object.keys(readings)) {
    if (!Object.hasOwn(thing.readings, field)) continue;
    refusals.push({
      field,
      what: sentence('refuse.said.already', {
        name: nameSentence(thing),
        field: fieldText(kind.kind, field),
        text: thing.readings[field]!.text,
      }),
      mend: sentence('mend.said.already'),
    });
  }
  if (refusals.length > 0) return refused(refusals);
  if (context.by === '') return nobody();
  const body: JsonObject = { ...place(found), thing: thing.id, readings };
  const merged = { ...textsOf(thing), ...readings };
  return taken(
    [draft(context, context.by, ADDED, LINK_VERSION, body)],
    doubtsAbout({ kind, campaign, hole, thing, readings: merged, said: Object.keys(readings) }),
  );
}

function correct(campaign: CampaignView, command: Of<'correct'>, context: Context): Decision {
  const found = findThing(campaign, command.thing);
  if (found === undefined) return unknownThing();
  const { thing, hole } = found;
  const kind = kindOf(thing.kind)!;
  const { readings, refusals } = checked(kind, command.readings, campaign, hole, false);
  if (Object.keys(command.readings).length === 0)
    refusals.push({ what: sentence('refuse.no.reading'), mend: sentence('mend.no.reading') });
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
      what: sentence('doubt.run.pieces', { name: thing.name, count: pieces.length }),
      likely: [],
    });
  return taken(drafts, doubts);
}

function restore(campaign: CampaignView, command: Of<'restore'>, context: Context): Decision {
  const found = findThing(campaign, command.thing);
  if (found === undefined) return unknownThing();
  const { thing } = found;
  const refusals = [...reasonProblems(command.reason)];
  if (thing.withdrawn === null)
    refusals.push({
      field: 'thing',
      what: sentence('refuse.not.withdrawn', { name: nameSentence(thing) }),
      mend: sentence('mend.not.withdrawn'),
    });
  if (refusals.length > 0 || thing.withdrawn === null) return refused(refusals);
  if (context.by === '') return nobody();
  const { entries } = thing.withdrawn;
  const drafts = [thing.id, ...(thing.absorbed ?? [])].map((id) =>
    link(context, RESTORED, { ...place(found), thing: id }, command.reason, entries),
  );
  return taken(drafts, []);
}

function join(campaign: CampaignView, command: Of<'join'>, context: Context): Decision {
  const into = findThing(campaign, command.into);
  const from = findThing(campaign, command.from);
  if (into === undefined || from === undefined) return unknownThing();
  const kind = kindOf(into.thing.kind)!;
  const refusals: Refusal[] = [];
  if (into.thing.kind !== from.thing.kind || into.hole?.id !== from.hole?.id)
    refusals.push({
      what: sentence('refuse.not.one', { from: nameSentence(from.thing), into: nameSentence(into.thing) }),
      mend: sentence('mend.not.one'),
    });
  else if (into.thing.id === from.thing.id)
    refusals.push({
      what: sentence('refuse.already.one', { name: nameSentence(into.thing) }),
      mend: sentence('mend.already.one'),
    });
  const { readings, refusals: unread } = checked(kind, command.readings ?? {}, campaign, into.hole, false);
  refusals.push(...unread, ...reasonProblems(command.reason));
  if (refusals.length > 0) return refused(refusals);
  if (context.by === '') return nobody();
  const corrects = claimants([into.thing, from.thing], Object.keys(readings));
  const body: JsonObject = { ...place(into), into: into.thing.id, from: from.thing.id, readings };
  const doubts = kind.fields.flatMap((field): Doubt[] => {
    const a = Object.hasOwn(into.thing.readings, field.name) ? into.thing.readings[field.name] : undefined;
    const b = Object.hasOwn(from.thing.readings, field.name) ? from.thing.readings[field.name] : undefined;
    if (a === undefined || b === undefined || Object.hasOwn(readings, field.name)) return [];
    const isNumber = a.value !== null && b.value !== null && field.quantity !== 'lengths';
    const same = isNumber ? Math.abs(a.value! - b.value!) < 1e-9 : a.text === b.text;
    if (same || field.quantity === 'thing') return [];
    return [
      {
        field: field.name,
        what: sentence('doubt.differ', {
          first: shown(kind, field, a.text),
          second: shown(kind, field, b.text),
          field: fieldText(kind.kind, field.name),
        }),
        likely: [a, b].map((one) => ({
          label: shown(kind, field, one.text),
          readings: { [field.name]: one.text },
        })),
      },
    ];
  });
  return taken([link(context, JOINED, body, command.reason, corrects)], doubts);
}

/** A reading as people see it: a word of a list by how it is called. */
const shown = (kind: Kind, field: Field, text: string): Sentence =>
  field.quantity === 'word' ? wordText(kind.kind, field.name, text) : asItIs(text);

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
        what: sentence('refuse.no.reason'),
        mend: sentence('mend.reason'),
      },
    ];
  if (!isWritable(reason))
    return [
      {
        field: 'reason',
        what: sentence('refuse.character.reason'),
        mend: sentence('mend.character'),
      },
    ];
  if (reason.length > REASON_MOST)
    return [
      {
        field: 'reason',
        what: sentence('refuse.long.reason', { count: reason.length }),
        mend: sentence('mend.keep.to', { most: REASON_MOST }),
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

const refuse = (field: string | undefined, what: Sentence, mend: Sentence): Decision =>
  refused([field === undefined ? { what, mend } : { field, what, mend }]);

const nobody = (): Decision => refuse('by', sentence('refuse.nobody'), sentence('mend.nobody'));

const unknownThing = (): Decision =>
  refuse('thing', sentence('refuse.unknown.thing'), sentence('mend.unknown.thing'));
