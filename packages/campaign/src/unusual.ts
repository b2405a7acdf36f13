import type { Doubt } from './command.ts';
import { type Doubted, valueIn } from './doubted.ts';
import { sayLength } from './say.ts';
import { likelySlips } from './slips.ts';

/** Numbers outside of what their field usually holds. */
export function unusual(doubted: Doubted): readonly Doubt[] {
  const doubts: Doubt[] = [];
  for (const field of doubted.kind.fields) {
    if (!doubted.said.includes(field.name) || !('usual' in field)) continue;
    const value = valueIn(doubted, field.name);
    const [least, most] = field.usual;
    if (value === null || (value >= least && value <= most)) continue;
    const said = doubted.readings[field.name]!;
    if (field.quantity === 'count')
      doubts.push({
        field: field.name,
        what: `${said} is an unusual ${field.label}. Is it right?`,
        likely: [],
      });
    else
      doubts.push({
        field: field.name,
        what: `${said} is ${value < least ? `less than ${sayLength(least)}` : `more than ${sayLength(most)}`}, unusual for ${field.label}. Is it right?`,
        likely: likelySlips(said, field, (metres) => metres >= least && metres <= most).map(
          ({ label, text }) => ({
            label,
            readings: { [field.name]: text },
          }),
        ),
      });
  }
  return doubts;
}
