import { QuantityError } from '../quantity-error.ts';
import type { Input } from './input.ts';
import type { NumbersTaken, NumberTaken, Relation, Taken } from './relation.ts';
import { convert } from './unit.ts';

/** What a relation was computed from: in its own unit, usual values filled in. */
export interface TakenValue {
  readonly value: number | readonly number[] | string;
  readonly sd: number | null;
  readonly unit: string;
  /** Whether nobody gave it. */
  readonly usual: boolean;
}

/** One result with the parts of its standard uncertainty. */
export interface ResultValue {
  readonly value: number | readonly number[] | string | null;
  readonly unit: string;
  /** Null where nothing that was given has one and the relation has none of its own; a list beside a list. */
  readonly sd: number | readonly number[] | null;
  /** By quantity, in the result's unit, for single numbers; `the relation itself` for its published scatter. */
  readonly parts: readonly { readonly from: string; readonly sd: number }[];
}

export interface Evaluation {
  readonly relation: Relation;
  readonly taken: Readonly<Record<string, TakenValue>>;
  readonly results: Readonly<Record<string, ResultValue>>;
}

type Values = Readonly<Record<string, number | readonly number[] | string>>;
type Results = Readonly<Record<string, number | readonly number[] | string | null>>;

/**
 * A relation at what a person gave: units converted, ranges held, standard uncertainties carried through.
 *
 * A quantity is moved by plus and minus its uncertainty, all others held; half the difference is its part (GUM, JCGM
 * 100:2008, 5.1.3 note 2), and parts add in squares: inputs count as independent. Where a move would leave the range,
 * the other side alone is used, or a part of the move.
 *
 * @throws QuantityError for a quantity that is unknown, missing, in a wrong unit or out of its range, and for what the
 *   relation itself refuses
 */
export const evaluate = (relation: Relation, inputs: Readonly<Record<string, Input>>): Evaluation => {
  for (const name of Object.keys(inputs))
    if (!Object.hasOwn(relation.takes, name))
      throw new QuantityError(
        relation.name,
        `it takes no "${name}"`,
        Object.keys(relation.takes).join(', ') || 'nothing',
      );
  const missing = Object.entries(relation.takes).filter(
    ([name, asked]) => inputs[name] === undefined && isNeeded(asked),
  );
  if (missing.length > 1)
    throw new QuantityError(
      relation.name,
      `${missing.map(([name]) => name).join(', ')} are missing`,
      missing.map(([name, asked]) => `${name}: ${asked.what}`).join('; '),
    );
  const taken = Object.fromEntries(
    Object.entries(relation.takes).map(([name, asked]) => [
      name,
      takenValue(`${relation.name}, ${name}`, asked, inputs[name]),
    ]),
  );
  const values: Values = Object.fromEntries(Object.entries(taken).map(([name, { value }]) => [name, value]));
  const compute = (at: Values): Results => relation.compute(at as never);
  const results = compute(values);
  const moved = Object.entries(relation.takes).flatMap(([name, asked]) => {
    const { sd, value } = taken[name]!;
    if (sd === null || sd === 0 || asked.kind === 'text' || asked.kind === 'choice') return [];
    return moves(asked, value as number | readonly number[], sd).map(([up, down, width]) => {
      const at = (one: number | readonly number[] | null) =>
        one === null ? results : compute({ ...values, [name]: one });
      const [above, below] = [at(up), at(down)];
      return { from: name, part: (key: string) => difference(above[key], below[key], width) };
    });
  });
  const own = relation.own?.(values as never, results) ?? {};
  const measured = Object.fromEntries(
    Object.entries(relation.gives).map(([key, { unit }]) => [
      key,
      resultValue(
        results[key] ?? null,
        unit,
        moved.map(({ from, part }) => ({ from, sd: part(key) })),
        own[key],
      ),
    ]),
  );
  const words = relation.verdict?.(values as never, measured) ?? {};
  return {
    relation,
    taken,
    results: Object.fromEntries(
      Object.entries(measured).map(([key, one]) => [
        key,
        words[key] === undefined ? one : { ...one, value: words[key] },
      ]),
    ),
  };
};

/** Whether a relation can't do without it. */
export const isNeeded = (asked: Taken): boolean =>
  asked.kind === 'numbers' || (asked.kind !== 'choice' && asked.usual === undefined);

const takenValue = (where: string, asked: Taken, input: Input | undefined): TakenValue => {
  if (asked.kind === 'choice') {
    const text = input === undefined ? asked.options[0]! : wordsOf(input, where);
    const found = asked.options.find((option) => option.toLowerCase() === text.toLowerCase());
    if (found === undefined)
      throw new QuantityError(where, `there is no variant "${text}"`, asked.options.join('; '));
    return { value: found, sd: null, unit: '', usual: input === undefined };
  }
  if (asked.kind === 'text') {
    const text = input === undefined ? asked.usual : wordsOf(input, where);
    if (text === undefined)
      throw new QuantityError(where, `${asked.what} is missing`, `for example ${asked.example}`);
    return { value: text, sd: null, unit: '', usual: input === undefined };
  }
  if (input === undefined) {
    if (asked.kind === 'number' && asked.usual !== undefined)
      return { value: asked.usual, sd: null, unit: asked.unit, usual: true };
    throw new QuantityError(where, `${asked.what} is missing`, rangeWords(asked));
  }
  if (input.kind === 'words' || input.kind !== asked.kind)
    throw new QuantityError(
      where,
      asked.kind === 'number' ? 'it is no single number' : 'it is no series of numbers',
      rangeWords(asked),
    );
  const own = (value: number) => held(where, asked, convert(value, input.unit, asked.unit, where));
  const sd = input.sd === undefined ? null : convert(input.sd, input.unit, asked.unit, where, true);
  if (sd !== null && !(sd >= 0 && Number.isFinite(sd)))
    throw new QuantityError(where, `its standard uncertainty is ${sd} ${asked.unit}`, '0 or more');
  return {
    value: input.kind === 'number' ? own(input.value) : input.values.map(own),
    sd,
    unit: asked.unit,
    usual: false,
  };
};

const wordsOf = (input: Input, where: string): string => {
  if (input.kind === 'words') return input.text;
  throw new QuantityError(where, 'it is a number', 'words');
};

const rangeWords = ({ range: [low, high], unit, because }: NumberTaken | NumbersTaken): string => {
  const units = unit === '1' || unit === '' ? '' : ` ${unit}`;
  const span =
    high === Number.POSITIVE_INFINITY
      ? `${low}${units} or more`
      : low === Number.NEGATIVE_INFINITY
        ? `${high}${units} or less`
        : `${low} to ${high}${units}`;
  return `${span} (${because})`;
};

const held = (where: string, asked: NumberTaken | NumbersTaken, value: number): number => {
  const [low, high] = asked.range;
  if (Number.isFinite(value) && value >= low && value <= high) return value;
  const units = asked.unit === '1' || asked.unit === '' ? '' : ` ${asked.unit}`;
  throw new QuantityError(where, `${asked.what} is ${value}${units}`, rangeWords(asked));
};

/** Where a quantity is moved to, up and down (null: not moved), and over how many of its uncertainties. */
const moves = (
  { range: [low, high] }: NumberTaken | NumbersTaken,
  value: number | readonly number[],
  sd: number,
): readonly (readonly [
  up: number | readonly number[] | null,
  down: number | readonly number[] | null,
  width: number,
])[] => {
  if (typeof value === 'number') {
    // where neither side has room for the whole uncertainty, part of it tells the slope
    for (let share = 1; share > 1e-3; share /= 2) {
      const up = value + share * sd <= high ? value + share * sd : null;
      const down = value - share * sd >= low ? value - share * sd : null;
      if (up !== null || down !== null) return [[up, down, share * (up === null || down === null ? 1 : 2)]];
    }
    return [];
  }
  return value.map((one, i) => {
    const [[up = null, down = null, width] = [null, null, 1]] = moves(
      { range: [low, high] } as never,
      one,
      sd,
    );
    const at = (to: number | readonly number[] | null) => (to === null ? null : value.with(i, to as number));
    return [at(up), at(down), width] as const;
  });
};

const difference = (above: unknown, below: unknown, width: number): number | readonly number[] => {
  if (Array.isArray(above) && Array.isArray(below))
    return above.map((one, i) => difference(one, below[i], width) as number);
  return typeof above === 'number' && typeof below === 'number' ? (above - below) / width : 0;
};

const resultValue = (
  value: number | readonly number[] | string | null,
  unit: string,
  parts: readonly { readonly from: string; readonly sd: number | readonly number[] }[],
  own: number | undefined,
): ResultValue => {
  if (value === null || typeof value === 'string') return { value, unit, sd: null, parts: [] };
  if (typeof value !== 'number')
    return {
      value,
      unit,
      sd:
        parts.length === 0
          ? null
          : value.map((_, i) => Math.hypot(...parts.map(({ sd }) => (sd as readonly number[])[i] ?? 0))),
      parts: [],
    };
  const bySource = new Map<string, number>();
  for (const { from, sd } of parts) bySource.set(from, Math.hypot(bySource.get(from) ?? 0, sd as number));
  if (own !== undefined) bySource.set('the relation itself', own);
  const all = [...bySource].map(([from, sd]) => ({ from, sd: Math.abs(sd) }));
  return { value, unit, sd: all.length === 0 ? null : Math.hypot(...all.map(({ sd }) => sd)), parts: all };
};
