import { QuantityError } from '@firnbook/science/quantity-error';
import {
  catalogue,
  type Evaluation,
  evaluate,
  type Input,
  isNeeded,
  parseInput,
  type Relation,
  type ResultValue,
  relationNamed,
  shownNumber,
  shownSd,
  type Taken,
} from '@firnbook/science/relations';
import { Command } from 'commander';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Without a name it lists the relations; with a name alone, what that one takes and gives. Quantities are given by name
with their unit, and with a standard uncertainty where there is one:

  firnbook calc herron-langway depth="12 m" temperature="-18 °C" accumulation="0.4 m w.e./a"
  firnbook calc piece-density mass="4.20 ± 0.005 kg" diameter="98.2(2) mm" length="94.0(2) cm"

Series are written with spaces or commas between, the unit behind: values="2.1 3.9 6.2 kg ± 0.1".
`;

/** Any published relation on the spot, without a book. */
export const calcCommand = (terminal: Terminal): Command =>
  new Command('calc')
    .description('compute a published relation from quantities with units; no book needed')
    .argument('[relation]', 'its name')
    .argument('[quantities...]', 'name=value, for example depth="12 m"')
    .option('--json', 'the same for programs')
    .addHelpText('after', example)
    .action((name: string | undefined, words: readonly string[], options: { readonly json?: boolean }) => {
      if (name === undefined) return terminal.out(options.json ? jsonOf(listed()) : list());
      const relation = relationNamed(name);
      if (relation === undefined)
        throw new CommandError(
          `there is no relation "${name}"`,
          '[relation]',
          `${alike(name)}"firnbook calc" lists all.`,
        );
      if (words.length === 0 && needed(relation).length > 0)
        return terminal.out(options.json ? jsonOf(described(relation)) : description(relation));
      const evaluation = evaluate(relation, inputsOf(relation, words));
      terminal.out(options.json ? jsonOf(resultOf(evaluation)) : answer(evaluation));
    });

const jsonOf = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/** Letters to exchange, add or leave out to make one word of the other (Levenshtein 1966, from memory). */
const apart = (one: string, other: string): number => {
  let row = Array.from({ length: other.length + 1 }, (_, j) => j);
  for (let i = 1; i <= one.length; i++) {
    const next = [i];
    for (let j = 1; j <= other.length; j++)
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (one[i - 1] === other[j - 1] ? 0 : 1)));
    row = next;
  }
  return row[other.length]!;
};

/** Names that share a word with what was typed, or nearly are it; else those whose title has such a word. */
const alike = (typed: string): string => {
  const wordsOf = (text: string) => text.toLowerCase().match(/[\p{L}\p{N}]{3,}/gu) ?? [];
  const [whole, words] = [typed.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ''), wordsOf(typed)];
  const all = Object.values(catalogue).flat();
  const isNear = (word: string, other: string) =>
    other.includes(word) || (word.length > 3 && apart(word, other) <= Math.max(1, word.length / 4));
  const nearness = (name: string) => apart(whole, name.replaceAll('-', ''));
  const byName = all.filter(
    ({ name }) =>
      nearness(name) <= whole.length / 4 ||
      words.some((word) => wordsOf(name).some((other) => isNear(word, other))),
  );
  const near =
    byName.length > 0
      ? byName
      : all.filter(({ title }) => words.some((word) => wordsOf(title).some((other) => isNear(word, other))));
  const names = near.map(({ name }) => name).toSorted((a, b) => nearness(a) - nearness(b));
  return names.length === 0 ? '' : `Did you mean ${names.slice(0, 4).join(', ')}? `;
};

const listed = () =>
  Object.entries(catalogue).flatMap(([subject, relations]) =>
    relations.map(({ name, title }) => ({ name, subject, title })),
  );

const list = (): string =>
  Object.entries(catalogue)
    .filter(([, relations]) => relations.length > 0)
    .map(
      ([subject, relations]) =>
        `${subject}\n${relations.map(({ name, title }) => `  ${name.padEnd(30)} ${title}\n`).join('')}`,
    )
    .join('\n');

const needed = (relation: Relation): readonly string[] =>
  Object.entries(relation.takes)
    .filter(([, taken]) => isNeeded(taken))
    .map(([name]) => name);

const described = ({ name, title, page, source, caution, takes, gives }: Relation) => ({
  name,
  title,
  page,
  source,
  ...(caution === undefined ? {} : { caution }),
  takes,
  gives,
});

const unitWords = (unit: string): string => (unit === '1' || unit === '' ? 'a pure number' : unit);

const takenWords = (taken: Taken): string => {
  if (taken.kind === 'choice') return `one of ${taken.options.join('; ')} (the first where none is named)`;
  if (taken.kind === 'text')
    return `words, for example ${taken.example}${taken.usual === undefined ? '' : ` (usual: ${taken.usual})`}`;
  const [low, high] = taken.range;
  const usual = taken.kind === 'number' && taken.usual !== undefined ? `, usual ${taken.usual}` : '';
  return `${taken.kind === 'numbers' ? 'a series, ' : ''}${unitWords(taken.unit)}, ${low} to ${high} (${taken.because})${usual}`;
};

const description = (relation: Relation): string =>
  [
    `${relation.title}\n`,
    `Source: ${relation.source}\n`,
    `How: docs/method/${relation.page}.md\n`,
    ...(relation.caution === undefined ? [] : [`Caution: ${relation.caution}\n`]),
    '\nTakes\n',
    ...Object.entries(relation.takes).map(
      ([name, taken]) => `  ${name.padEnd(22)} ${taken.what}; ${takenWords(taken)}\n`,
    ),
    '\nGives\n',
    ...Object.entries(relation.gives).map(
      ([name, given]) => `  ${name.padEnd(22)} ${given.what}; ${unitWords(given.unit)}\n`,
    ),
  ].join('');

const inputsOf = (relation: Relation, words: readonly string[]): Readonly<Record<string, Input>> => {
  const inputs: Record<string, Input> = {};
  for (const word of words) {
    const at = word.indexOf('=');
    const name = word.slice(0, Math.max(at, 0));
    const taken = Object.hasOwn(relation.takes, name) ? relation.takes[name] : undefined;
    if (taken === undefined)
      throw new CommandError(
        at < 1 ? `"${word}" is no name=value` : `${relation.name} takes no "${name}"`,
        '[quantities...]',
        `It takes ${Object.keys(relation.takes).join(', ')}.`,
      );
    if (Object.hasOwn(inputs, name))
      throw new QuantityError(`${relation.name}, ${name}`, 'it is given twice', 'once');
    inputs[name] = parseInput(taken, word.slice(at + 1), `${relation.name}, ${name}`);
  }
  return inputs;
};

const resultOf = ({ relation, taken, results }: Evaluation) => ({
  relation: relation.name,
  title: relation.title,
  source: relation.source,
  page: relation.page,
  ...(relation.caution === undefined ? {} : { caution: relation.caution }),
  taken,
  results,
});

const numbers = ({ value, sd, unit }: ResultValue): string => {
  const units = unit === '1' || unit === '' ? '' : ` ${unit}`;
  if (value === null) return 'none';
  if (typeof value === 'string') return value;
  if (typeof value === 'number') {
    const own = typeof sd === 'number' ? sd : null;
    return `${shownNumber(value, own)}${own === null ? '' : ` ± ${shownSd(own)}`}${units}`;
  }
  return `${value
    .map((one, i) => {
      const own = Array.isArray(sd) ? (sd[i] as number) : null;
      return `${shownNumber(one, own)}${own === null ? '' : ` ± ${shownSd(own)}`}`;
    })
    .join('  ')}${units}`;
};

const answer = ({ relation, taken, results }: Evaluation): string => {
  const usual = Object.entries(taken)
    .filter(([, one]) => one.usual)
    .map(([name, { value, unit }]) => `${name} ${value}${unit === '' || unit === '1' ? '' : ` ${unit}`}`);
  const without = Object.values(results).every(({ sd }) => sd === null);
  return [
    `${relation.title}\n\n`,
    ...Object.entries(results).flatMap(([name, result]) => [
      `  ${name.padEnd(22)} ${numbers(result)}   ${relation.gives[name]!.what}\n`,
      ...(result.parts.length > 1
        ? [
            `  ${''.padEnd(22)}   of this ${result.parts.map(({ from, sd }) => `${from} ${shownSd(sd)}`).join(', ')}\n`,
          ]
        : []),
    ]),
    '\n',
    ...(usual.length === 0 ? [] : [`Not given, so taken: ${usual.join('; ')}.\n`]),
    ...(without
      ? [
          'No uncertainty was given and the relation has none of its own: write "12.0 ± 0.1 m" to carry one through.\n',
        ]
      : []),
    `Source: ${relation.source}\nHow: docs/method/${relation.page}.md\n`,
    ...(relation.caution === undefined ? [] : [`Caution: ${relation.caution}\n`]),
  ].join('');
};
