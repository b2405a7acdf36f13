import { compareEntries, type Entry, type JsonObject } from '@firnbook/journal';
import fc from 'fast-check';
import type { Command, Readings } from './command.ts';
import { type Device, device, opened } from './device.suite.ts';
import { thingsOf } from './find.ts';
import type { Field, Kind } from './kind.ts';
import { fieldOf, kindOf, kinds } from './kinds.ts';
import { readReading } from './reading.ts';
import type { ThingView } from './view.ts';

/** One thing that somebody does on one of three devices; the numbers pick what is said, about what. */
export interface Act {
  readonly who: number;
  readonly what: number;
  readonly kind: number;
  readonly picks: readonly number[];
}

export const acts = (most: number): fc.Arbitrary<readonly Act[]> =>
  fc.array(
    fc.record({
      who: fc.nat({ max: 2 }),
      what: fc.nat({ max: 99 }),
      kind: fc.nat({ max: 999 }),
      picks: fc.array(fc.nat({ max: 9999 }), { minLength: 4, maxLength: 26 }),
    }),
    { minLength: Math.floor(most / 4), maxLength: most, size: 'max' },
  );

const hostile = [
  '0',
  '-1',
  '−3,1',
  '0,0000000001',
  '99999999999999999999999999999999999999',
  '-99999999999999999999999999999999999999',
  '1e300',
  '1 2',
  'NaN',
  '__proto__',
  'constructor',
  'a\u0000b',
  'lone \ud800 surrogate',
  '\u202ertl',
  '  spaced\n\tout  ',
  '',
];

const lengths = ['0 m', '0.87 m', '87,5 cm', '12 mm', '3', '1.74 m', '-4 cm', '6 ft', '40 cm', '2.6 m'];

const honest: Readonly<Record<Field['quantity'], readonly string[]>> = {
  length: lengths,
  lengths: ['2 43.1 85,2 cm', '0 10', '5; 3; 1', '-2 0 4 cm', '2 43.1 43.3 85.2 cm', '0.4 m'],
  count: ['1', '2', '2', '3', '4', '0012'],
  word: [],
  text: ['length', 'to', 'none', 'melt', 'B-R001', 'Zero 2', 'a, b'],
  time: ['2026-06-14T09:30:00+05:45', '2026-06-13 09:30Z', '2026-02-31T00:00:00Z'],
  attachment: ['a'.repeat(64), 'F'.repeat(64)],
  position: ['-77.85, 38.01', '91, 0'],
  thing: [],
  mass: ['5120 g', '410 g', '2 kg'],
  temperature: ['-14 °C', '250 K', '4'],
  angle: ['1.2°', '400 gon', '89.99'],
  current: ['4 A'],
  rotation: ['80 rpm'],
  force: ['2 kN'],
  volume: ['3 l'],
  duration: ['4 min'],
  speed: ['12 kn'],
  density: ['0.35 g/cm3', '917'],
  share: ['4 %', '1.5', '100 %'],
};

/** Things that a device knows, by the kinds that a field may name. */
function known(of: Device, kindsMeant: readonly string[]): readonly ThingView[] {
  const view = of.book.view();
  const all: readonly ThingView[] = [
    ...view.people,
    ...view.holes.flatMap((hole) => [hole, ...thingsOf(hole)]),
    ...Object.values(view.others).flat(),
  ];
  return all.filter((one) => kindsMeant.length === 0 || kindsMeant.includes(one.kind));
}

const at = <T>(list: readonly T[], pick: number): T | undefined =>
  list.length === 0 ? undefined : list[pick % list.length];

function textFor(of: Device, field: Field, pick: number): string {
  if (pick % 43 === 0) return at(hostile, Math.floor(pick / 43))!;
  if (field.quantity === 'word') return at(field.words, pick)!;
  if (field.quantity !== 'thing') return at(honest[field.quantity], pick)!;
  const thing = at(known(of, typeof field.of === 'string' ? [field.of] : field.of), pick);
  return thing === undefined ? 'nowhere' : pick % 3 === 0 ? thing.name : thing.id;
}

function readingsFor(of: Device, kind: Kind, picks: readonly number[]): Readings {
  const readings: Record<string, string> = {};
  kind.fields.forEach((field, index) => {
    const pick = picks[index % picks.length]! + index;
    if (field.required || pick % 3 !== 0) readings[field.name] = textFor(of, field, pick);
  });
  return readings;
}

/** Rights given and taken, switched to names and back, and what was written without them let stand. */
function rightsCommand(of: Device, picks: readonly number[]): Command {
  const { people, opened: campaign, conflicts, holes } = of.book.view();
  const used = [...(conflicts ?? []), ...holes.flatMap((hole) => hole.conflicts)].flatMap(
    (one) => one.used ?? [],
  );
  const one = at(used, picks[1]!);
  if (one !== undefined && picks[0]! % 3 === 0)
    return {
      do: 'log',
      kind: 'settled right',
      readings: { person: one.person, right: one.right, entries: one.entries.join(' ') },
    };
  const isCampaign = picks[0]! % 4 === 1;
  const thing = isCampaign ? campaign! : at(people, picks[1]!)!;
  const readings: Readings = isCampaign
    ? picks[2]! % 4 === 0
      ? { rights: 'everybody' }
      : { rights: 'by name', pin: picks[2]! % 2 ? 'asked' : 'not asked' }
    : { [at(['log', 'plan', 'signOff'], picks[2]!)!]: picks[3]! % 2 ? 'yes' : 'no' };
  return { do: 'correct', thing: thing.id, readings, reason: 'the lead says so' };
}

function commandFor(of: Device, { what, kind: kindPick, picks }: Act): Command {
  const view = of.book.view();
  if (kindPick % 7 === 0) return rightsCommand(of, picks);
  // Mostly one hole, so that things meet.
  const hole = at(view.holes, picks[0]! % 5 === 0 ? picks[0]! : 0)?.id ?? 'nowhere';
  if (what < 45) {
    // Mostly runs and pieces, as on the ice.
    const usual = [
      'run',
      'run',
      'piece',
      'piece',
      'piece',
      'zero',
      'zero check',
      'tray',
      'feature',
      'cable check',
    ];
    const isUsual = kindPick % 3 > 0;
    const kind = isUsual ? kindOf(at(usual, kindPick >> 2)!)! : at(kinds.slice(1), kindPick >> 2)!;
    return { do: 'log', kind: kind.kind, hole, readings: readingsFor(of, kind, picks) };
  }
  const meant = kindPick % 3 > 0 ? ['run', 'piece', 'zero', 'feature', 'tray', 'set-up'] : [];
  const thing = at(known(of, meant), picks[1]!);
  if (thing === undefined) return { do: 'withdraw', thing: 'nowhere', reason: '' };
  const kind = kindOf(thing.kind)!;
  const fields = Object.entries(readingsFor(of, kind, picks));
  const some = Object.fromEntries(
    fields.filter(
      (_, index) => index % fields.length === picks[2]! % fields.length || picks[2]! % 5 === index,
    ),
  );
  const reason = picks[3]! % 9 === 0 ? at(hostile, picks[3]!)! : 'read again';
  if (what < 60) return { do: 'correct', thing: thing.id, readings: some, reason };
  if (what < 70) {
    const unsaid = fields.filter(([name]) => picks[2]! % 5 === 0 || !Object.hasOwn(thing.readings, name));
    return { do: 'add', thing: thing.id, readings: Object.fromEntries(unsaid.slice(0, 2)) };
  }
  if (what < 77) return { do: 'withdraw', thing: thing.id, reason };
  const gone = at(
    known(of, []).filter((one) => one.withdrawn !== null),
    picks[2]!,
  );
  if (what < 83) return { do: 'restore', thing: (gone ?? thing).id, reason };
  const twins = known(of, [
    'run',
    'piece',
    'zero',
    'feature',
    'tray',
    'person',
    'set-up',
    'pit',
    'depth settings',
  ]);
  const into = at(twins, picks[1]!) ?? thing;
  const others = twins.filter((one) => one.kind === into.kind && one.id !== into.id);
  const other = at(others, picks[2]!) ?? into;
  const settled = picks[3]! % 4 === 0 && into.kind === thing.kind ? some : {};
  return { do: 'join', into: into.id, from: other.id, readings: settled, reason };
}

/** Whatever a newer or a broken build may send. */
function foreign(of: Device, { kind, picks }: Act): void {
  const hole = at(of.book.view().holes, picks[0]!)?.id ?? 'nowhere';
  const thing = at(known(of, []), picks[1]!)?.id ?? hole;
  const bodies: readonly JsonObject[] = [
    { hole, readings: { number: '117', __unknown__: 'x' } },
    { hole, thing, readings: { number: '7', bulk: '4 kg', to: 'deep' } },
    {
      hole,
      thing,
      into: thing,
      from: hole,
      run: thing,
      readings: { run: thing, piece: '__proto__', zero: '?' },
    },
    { hole, readings: [] },
    { thing, readings: { of: '__proto__', at: '9e9 m', what: 'melt layer', thickness: '1 m' } },
    { thing, readings: { signOff: picks[3]! % 2 ? 'yes' : 'no', log: 'no', rights: 'by name' } },
    {},
  ];
  const words = [
    ...[
      'bag.logged',
      'reading.corrected',
      'reading.added',
      'thing.withdrawn',
      'thing.restored',
      'things.joined',
    ],
    ...kinds.map((one) => one.entry),
  ];
  of.write({
    kind: at(words, kind)!,
    version: picks[2]! % 4 === 0 ? 2 : 1,
    body: at(bodies, picks[3]!)!,
    observedAt: picks[0]! % 5 === 0 ? 'yesterday' : '2026-06-14T10:00:00Z',
    reason: 'r',
    ...(picks[2]! % 2 ? { corrects: [picks[1]! % 3 === 0 ? 'nowhere' : thing] } : {}),
  });
}

/** Three runs with a piece and a feature each, a second zero that is measured and named, a scratch, a settled tray. */
function begin(): Device {
  const { phone, hole } = opened('phone');
  const setup = phone.log('set-up', { name: 'long barrel', barrel: '1.15 m' });
  const board = phone.log('zero', { surface: 'board set anew', height: '31 cm' }, hole);
  phone.log('zero check', { zero: board, height: '31.4 cm' }, hole);
  phone.log('zero', { surface: 'stake', height: '52 cm' }, hole);
  let run = '';
  for (const number of [1, 2, 3]) {
    const depths = { from: `${0.9 * (number - 1)} m`, to: `${0.9 * number} m` };
    const named = number === 3 ? { zero: board, setup } : {};
    const before = run;
    run = phone.log('run', { number: `${number}`, ...depths, ...named }, hole);
    const scratch = before === '' ? {} : { catcherMark: '12 mm', catcherRun: before };
    const length = `${80 + number} cm`;
    const piece = phone.log('piece', { number: '1', length, topBreak: 'unsure', ...scratch }, hole, run);
    phone.log('feature', { piece, what: 'melt layer', end: 'top', at: '12 cm', thickness: '2 cm' }, hole);
  }
  phone.log('tray', { run, positions: '2 84.5 cm' }, hole);
  return phone;
}

/** @returns everything written on three devices that hear each other now and then, in total order */
export function historyOf(said: readonly Act[]): readonly Entry[] {
  const phone = begin();
  const devices = [phone, device('tablet', 1_780_000_030_000), device('computer', 1_779_999_000_000)];
  for (const one of devices.slice(1)) {
    one.hear(phone);
    one.me = phone.me;
  }
  devices[1]!.me = phone.book.view().people[1]!.id;
  for (const act of said) {
    const of = devices[act.who]!;
    if (act.what >= 96) foreign(of, act);
    else if (act.what >= 88) {
      // A part of what another one wrote: the rest comes later.
      const other = devices[(act.who + 1 + (act.kind % 2)) % 3]!;
      of.hear({
        ...other,
        written: other.written.slice(0, 1 + (act.picks[0]! % (other.written.length + 1))),
      });
    } else {
      of.at =
        act.picks[3]! % 40 === 0
          ? 'yesterday'
          : `2026-06-14T09:${String(act.kind % 60).padStart(2, '0')}:00+05:45`;
      const command = commandFor(of, act);
      const decision = of.decide(command);
      if (!decision.ok) continue;
      for (const draft of decision.drafts) mustReadBack(of, draft.kind, draft.body);
      of.do(command);
    }
  }
  return devices.flatMap((one) => one.written).sort(compareEntries);
}

/** What was decided is read back by the same build. */
function mustReadBack(of: Device, entry: string, body: JsonObject): void {
  const thing =
    typeof body.thing === 'string' ? body.thing : typeof body.into === 'string' ? body.into : null;
  const word = thing === null ? null : known(of, []).find((one) => one.id === thing)?.kind;
  const kind = word == null ? kinds.find((one) => one.entry === entry) : kindOf(word);
  if (kind === undefined || body.readings === undefined) return;
  const readings = {
    ...(body.readings as Readings),
    ...(typeof body.run === 'string' ? { run: body.run } : {}),
  };
  for (const [name, text] of Object.entries(readings)) {
    const field = fieldOf(kind, name);
    if (field === undefined || !readReading(text, field, kind).ok)
      throw new Error(`decide wrote what can't be read back: ${kind.kind}.${name} ${JSON.stringify(text)}`);
  }
}
