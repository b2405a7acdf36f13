import type { Finding, Slip } from '@firnbook/science/depth';
import type { Check, Closing, Verdict } from '@firnbook/science/depth-scales';
import { fieldText } from '../texts/called.ts';
import { type Sentence, sentence, type TextKey, type Value } from '../texts/sentence.ts';

/** How a thing is called, by its id. */
export type NameOf = (id: string) => string;

/** A stub of less is not worth a word. Common practice, no source. */
const WORTH_SAYING = 0.01;

/**
 * The bench verdict in sentences: what closes, what to look at and measure again now, the longest next run, the check
 * that would help most.
 */
export function verdictSentences(verdict: Verdict, nameOf: NameOf): readonly Sentence[] {
  const said: Sentence[] = [closingSentence(verdict, nameOf)];
  for (const finding of verdict.lookAgain) said.push(lookSentence(finding, nameOf));
  for (const check of verdict.measureAgain) said.push(checkSentence(check, nameOf, 'verdict.measure'));
  const { longest, best } = verdict;
  if (longest !== null) {
    const values = {
      length: { depth: longest.length },
      barrel: { depth: longest.barrel },
      stub: spread(longest.stub),
    };
    said.push(sentence(longest.length >= WORTH_SAYING ? 'verdict.longest' : 'verdict.full', values));
  }
  const sd = verdict.checks[0]?.before;
  if (best !== null && best.kind !== 'length') said.push(checkSentence(best, nameOf));
  else if (best === null && sd !== undefined) said.push(sentence('verdict.check.none', { sd: spread(sd) }));
  return said;
}

function closingSentence({ run, closing }: Verdict, nameOf: NameOf): Sentence {
  const name = nameOf(run);
  if (closing === null) return sentence('verdict.open', { name });
  const tolerance = spread(closing.tolerance);
  if (closing.closes) {
    const key = closing.stubBefore > WORTH_SAYING ? 'verdict.closes.before' : 'verdict.closes';
    return sentence(key, { name, tolerance, ...account(closing) });
  }
  const key = closing.difference < 0 ? 'verdict.more' : 'verdict.less';
  return sentence(key, { name, tolerance, length: spread(Math.abs(closing.difference)) });
}

const account = (closing: Closing): Sentence['values'] => ({
  advance: { depth: closing.advance },
  core: { depth: closing.core },
  lost: spread(closing.lost + closing.unseen),
  before: spread(closing.stubBefore),
  stub: spread(closing.stub),
});

function lookSentence(finding: Finding, nameOf: NameOf): Sentence {
  const { suggested, suggestedRun } = finding;
  const likely =
    suggestedRun === undefined
      ? sentence(likelyTexts[finding.likely])
      : sentence('likely.run.suggested', { run: nameOf(suggestedRun) });
  const values = {
    field: fieldText(finding.what, finding.field),
    name: nameOf(finding.which),
    size: { length: finding.size },
    likely,
  };
  return suggested === undefined
    ? sentence('verdict.look', values)
    : sentence('verdict.look.suggested', { ...values, suggested: said(finding, suggested) });
}

/** A length of a piece in centimetres, a depth in metres. */
const said = ({ what }: Finding, value: number): Value =>
  what === 'piece' ? { length: value } : { depth: value };

const likelyTexts: Readonly<Record<Slip, TextKey>> = {
  '10 cm': 'likely.10.cm',
  '1 m': 'likely.1.m',
  'swapped digits': 'likely.swapped',
  'missing piece': 'likely.missing',
  'doubled piece': 'likely.doubled',
  'zero changed': 'likely.zero',
  'lost ice not logged': 'likely.lost',
  'run attributed wrongly': 'likely.run',
  'no known slip': 'likely.none',
};

const checkTexts: Readonly<Record<Check['kind'], TextKey>> = {
  sounding: 'verdict.check.sounding',
  'cable mark': 'verdict.check.cable',
  length: 'verdict.check.length',
  zero: 'verdict.check.zero',
};

/** What a check would do: "A cable mark check at 92 m would bring the depth error from 14 cm to 4 cm." */
export const checkSentence = (
  check: Check,
  nameOf: NameOf,
  key: TextKey = checkTexts[check.kind],
): Sentence =>
  sentence(key, {
    name: nameOf(check.which),
    at: { measure: check.at, of: 'length', unit: 'm' },
    before: spread(check.before),
    after: spread(check.after),
  });

/** Whole centimetres, as a crew says them; millimetres where it is less than one. */
const spread = (metres: number): Value => {
  const step = Math.abs(metres) < 0.0095 ? 1000 : 100;
  return { measure: Math.round(metres * step) / step, of: 'length', unit: 'cm' };
};
