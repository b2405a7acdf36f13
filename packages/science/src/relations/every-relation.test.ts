import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { QuantityError } from '../quantity-error.ts';
import { seeded } from '../random/index.ts';
import { catalogue } from './catalogue.ts';
import { evaluate } from './evaluate.ts';
import { type Input, parseInput } from './input.ts';
import type { Relation, Taken } from './relation.ts';
import { sensibleCalls } from './sensible-calls.suite.ts';

const relations = Object.values(catalogue).flat();
type Inputs = Readonly<Record<string, Input>>;

const areFinite = (value: unknown): boolean =>
  typeof value === 'number' ? Number.isFinite(value) : !Array.isArray(value) || value.every(areFinite);

const sensible = ({ name, takes }: Relation): Inputs =>
  Object.fromEntries(
    Object.entries(sensibleCalls[name] ?? {}).map(([key, text]) => [key, parseInput(takes[key]!, text)]),
  );

/** What is wrong with an answer: a number that is none, or an error that is no answer to a person. */
const wrongWith = (relation: Relation, inputs: Inputs): string | null => {
  try {
    const { results } = evaluate(relation, inputs);
    const bad = Object.entries(results).find(([, { value, sd }]) => !areFinite(value) || !areFinite(sd));
    return bad === undefined ? null : `${bad[0]} is ${bad[1].value} ± ${bad[1].sd}`;
  } catch (error) {
    return error instanceof QuantityError ? null : String(error);
  }
};

const hostileWords = [
  ...[
    '',
    ' ',
    'x',
    '<',
    '<1',
    '<<1',
    '-',
    '0',
    '0 0 0',
    '<1 <1 <1',
    '1 2 3 <0.1',
    'NaN',
    'Infinity',
    '1e400',
  ],
  ...[
    '__proto__',
    'constructor',
    'toString',
    '2026-02-30',
    '-0001-01-01',
    '10000-01-01',
    'Na 40, Na 40',
    'é',
    '٣',
  ],
  ...['m =', 'm = 1; m = 2', '((((', 'm / 0', '9'.repeat(400), `a${'+a'.repeat(3000)}`],
];

/** Values of one quantity that a person would not give, or only just. */
const hostile = (taken: Taken, usual: Input | undefined): readonly Input[] => {
  if (taken.kind === 'text') return hostileWords.map((text) => ({ kind: 'words', text }));
  if (taken.kind === 'choice')
    return [...taken.options, '', 'x', '__proto__'].map((text) => ({ kind: 'words', text }));
  const { unit, range } = taken;
  const [low, high] = range;
  const step = (end: number) => Math.max(1e-9, 1e-9 * Math.abs(end));
  const outside = [low - step(low), high + step(high), Number.NaN, Number.POSITIVE_INFINITY, -1];
  const inside = [low, high, 0, (low + high) / 2, low + 1e-6 * (high - low)];
  if (taken.kind === 'number')
    return [
      ...[...inside, ...outside].map((value) => ({ kind: 'number' as const, value, unit })),
      ...[low, high].map((value) => ({ kind: 'number' as const, value, sd: 1e-2 * Math.abs(high), unit })),
      { kind: 'number', value: low, sd: Number.NaN, unit },
      { kind: 'numbers', values: [low, high], unit },
      { kind: 'words', text: 'x' },
    ];
  const values = usual?.kind === 'numbers' ? usual.values : [];
  const ends = [low, high] as const;
  const lists = [
    [],
    ...ends.map((end) => [end]),
    ...ends.map((end) => values.map(() => end)),
    ...ends.map((_, k) => values.map((__, i) => ends[(i + k) % 2]!)),
    values.map(() => values[0]!),
    values.slice(1),
    [...values, ...values.slice(0, 1)],
    values.toReversed(),
    ...[...ends, ...outside].flatMap((one) => [values.with(0, one), values.with(-1, one)]),
  ];
  return lists.map((list) => ({ kind: 'numbers', values: list, unit }));
};

/** Any quantities at any ends of their ranges, any variants. */
const corner = ({ takes }: Relation, usual: Inputs, random: () => number): Inputs => {
  const between = ([low, high]: readonly [number, number]) => {
    const which = random();
    return which < 0.4 ? low : which < 0.8 ? high : low + (high - low) * random() ** 4;
  };
  const lists = Object.values(usual).filter((one) => one.kind === 'numbers');
  return Object.fromEntries(
    Object.entries(takes).flatMap(([name, taken]): [string, Input][] => {
      const given = usual[name];
      if (taken.kind === 'choice')
        return [[name, { kind: 'words', text: taken.options[Math.floor(random() * taken.options.length)]! }]];
      if (taken.kind === 'number' && (given === undefined || random() < 0.8))
        return [[name, { kind: 'number', value: between(taken.range), unit: taken.unit }]];
      if (given?.kind !== 'numbers' || taken.kind !== 'numbers') return given ? [[name, given]] : [];
      const which = random();
      if (which < 0.3) return [[name, given]];
      // two series that are alike in all of their values
      const other = lists[Math.floor(random() * lists.length)]!;
      const values = which < 0.5 ? other.values : given.values.map(() => between(taken.range));
      return [[name, { kind: 'numbers', values, unit: taken.unit }]];
    }),
  );
};

/** Those that solve or draw for a tenth of a second and more. */
const slow = new Set(['box-warming', 'box-improvement', 'layered-conduction', 'block-bootstrap-correlation']);

describe('every relation', () => {
  it('has one name, a sensible call of its own, and a page that names it', () => {
    expect(relations.map(({ name }) => name).toSorted()).toEqual(Object.keys(sensibleCalls).toSorted());
    for (const { name, page } of relations) {
      const text = readFileSync(new URL(`../../../../docs/method/${page}.md`, import.meta.url), 'utf8');
      expect([page, name, new RegExp(`\`${name}\`|calc ${name}\\b`).test(text)]).toEqual([page, name, true]);
    }
  });

  it.each(relations.map((one) => [one.name, one] as const))(
    '%s answers a sensible call with finite numbers, whatever the variant',
    (_, relation) => {
      const usual = sensible(relation);
      const { results } = evaluate(relation, usual);
      for (const [name, { value, sd }] of Object.entries(results))
        expect([name, areFinite(value), areFinite(sd)]).toEqual([name, true, true]);
      expect(Object.values(results).some(({ value }) => value !== null)).toBe(true);
      for (const [name, taken] of Object.entries(relation.takes))
        if (taken.kind === 'choice')
          for (const text of taken.options)
            expect(wrongWith(relation, { ...usual, [name]: { kind: 'words', text } })).toBeNull();
    },
    20_000,
  );

  it.each(relations.map((one) => [one.name, one] as const))(
    '%s answers hostile input with finite numbers or says what it takes',
    (_, relation) => {
      const usual = sensible(relation);
      const random = seeded(20261130);
      for (const [name, taken] of Object.entries(relation.takes)) {
        const { [name]: one, ...without } = usual;
        expect([name, wrongWith(relation, without)]).toEqual([name, null]);
        if (!slow.has(relation.name))
          for (const input of hostile(taken, one))
            expect([name, input, wrongWith(relation, { ...usual, [name]: input })]).toEqual([
              name,
              input,
              null,
            ]);
      }
      for (let i = 0; i < (slow.has(relation.name) ? 5 : 60); i++) {
        const inputs = corner(relation, usual, () => random.uniform());
        expect([inputs, wrongWith(relation, inputs)]).toEqual([inputs, null]);
      }
    },
    60_000,
  );
});
