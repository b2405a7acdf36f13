import type { Part } from './part.ts';
import { figureLine } from './table.ts';

export interface Totals {
  readonly holds: number;
  readonly failed: number;
  /** Parts that this machine can't try. */
  readonly leftOut: number;
}

export interface Asked {
  /** Ids of the parts; empty for all. */
  readonly ids: readonly string[];
  /** How long the long run takes, minutes. */
  readonly minutes: number;
}

const usualMinutes = 30;

/**
 * Reads "D1 S5 --minutes 10".
 *
 * @throws Error in a person's words
 */
export function readAsked(words: readonly string[], known: readonly string[]): Asked {
  const ids: string[] = [];
  let minutes = usualMinutes;
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at]!;
    if (word === '--minutes') {
      at += 1;
      minutes = Number(words[at]);
      if (!(minutes > 0))
        throw new Error('--minutes NUMBER: how long the long run D11 takes, for example 10.');
    } else if (known.includes(word.toUpperCase())) ids.push(word.toUpperCase());
    else
      throw new Error(`There is no part ${word}. Parts: ${[...new Set(known)].join(' ')}; and --minutes 30.`);
  }
  return { ids, minutes };
}

/**
 * Runs the parts one after the other and says each figure on a line of its own. A part that breaks, and one without a
 * control, fail. One that can't run here says why; where a person asked for it by name that is a failure.
 */
export async function runParts(
  parts: readonly Part[],
  { ids, minutes }: Asked,
  say: (line: string) => void,
): Promise<Totals> {
  const total = { holds: 0, failed: 0, leftOut: 0 };
  const count = (isGood: boolean): void => {
    if (isGood) total.holds += 1;
    else total.failed += 1;
  };
  for (const part of parts) {
    if (ids.length > 0 && !ids.includes(part.id)) continue;
    const lack = part.lacks?.() ?? null;
    if (lack !== null) {
      say(`${figureLine(part.id, part.what, {})}left out: ${lack}`);
      if (ids.length > 0) total.failed += 1;
      else total.leftOut += 1;
      continue;
    }
    let controls = 0;
    let since = performance.now();
    const row = (what: string, figures: object, isGood: boolean, words: string): void => {
      count(isGood);
      const seconds = Math.round((performance.now() - since) / 1000);
      since = performance.now();
      say(`${figureLine(part.id, what, figures)}  ${words} (${seconds} s)`);
    };
    try {
      await part.run(
        {
          figure: (what, figures, holds) => row(what, figures, holds, holds ? 'holds' : 'FAILS'),
          control: (what, figures, isCaught) => {
            controls += 1;
            row(`control: ${what}`, figures, isCaught, isCaught ? 'caught' : 'NOT CAUGHT');
          },
        },
        minutes,
      );
      if (controls === 0) throw new Error('no control was run, so the figures above say nothing');
    } catch (error) {
      count(false);
      say(
        `${figureLine(part.id, part.what, {})}BROKE: ${error instanceof Error ? error.message : String(error)}`,
      );
    }
  }
  return total;
}
