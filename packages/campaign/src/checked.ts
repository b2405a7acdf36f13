import type { Readings, Refusal } from './command.ts';
import { findNamed } from './find.ts';
import type { Field, Kind } from './kind.ts';
import { fieldOf } from './kinds.ts';
import { readReading } from './reading.ts';
import { fieldText, kindText } from './texts/called.ts';
import { sentence } from './texts/sentence.ts';
import type { CampaignView, HoleView } from './view.ts';

/** Characters of a reading that is no text, white space and all: fifty lengths need less. */
const TYPED_MOST = 4000;

/** Quantities whose readings are kept as they were read, not as typed: there are no digits to preserve. */
const KEPT_AS_READ: ReadonlySet<string> = new Set(['word', 'time', 'attachment']);

/** Whether an entry can hold it (journal/SPEC.md, "Bytes"): no U+0000, no half of a character. */
export const isWritable = (text: string): boolean =>
  !text.includes('\u0000') && !/[\ud800-\udfff]/u.test(text);

/** Readings of a kind, each readable, words as the list writes them, things by id. */
export function checked(
  kind: Kind,
  given: Readings,
  campaign: CampaignView,
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
        what: sentence('refuse.no.field', { kind: kindText(kind.kind), field: name }),
        mend: sentence('mend.one.of', { words: kind.fields.map((one) => one.name) }),
      });
      continue;
    }
    if (typeof text !== 'string') {
      refusals.push({
        field: name,
        what: sentence('refuse.not.text', { field: fieldText(kind.kind, name) }),
        mend: sentence('mend.as.typed'),
      });
      continue;
    }
    const unkept = unkeepable(text, field, kind);
    if (unkept !== null) {
      refusals.push(unkept);
      continue;
    }
    const read = readReading(text, field, kind);
    if (!read.ok) {
      // Left blank where nothing has to be said is not a mistake.
      if (text.trim() === '' && isWhole && !field.required) continue;
      refusals.push({ field: name, what: read.what, mend: read.mend });
      continue;
    }
    if (field.quantity !== 'thing') {
      readings[name] = KEPT_AS_READ.has(field.quantity) ? read.reading.word! : text.trim();
      continue;
    }
    const of = typeof field.of === 'string' ? [field.of] : field.of;
    const thing = findNamed(campaign, hole, of, read.reading.word ?? '');
    if (thing !== undefined) readings[name] = thing.id;
    else
      refusals.push({
        field: name,
        what: sentence('refuse.no.thing', { kinds: of.map((one) => kindText(one)), text }),
        mend: sentence('mend.no.thing'),
      });
  }
  if (isWhole) refusals.push(...missing(kind, given));
  return { readings, refusals };
}

/** Why a text cannot be kept as it was typed; null where it can. */
function unkeepable(text: string, field: Field, kind: Kind): Refusal | null {
  const called = fieldText(kind.kind, field.name);
  if (!isWritable(text))
    return {
      field: field.name,
      what: sentence('refuse.character', { field: called }),
      mend: sentence('mend.character'),
    };
  const most = field.quantity === 'text' ? field.most : TYPED_MOST;
  const count = text.trim().length;
  if (count <= most) return null;
  return {
    field: field.name,
    what: sentence('refuse.long.text', { field: called, count }),
    mend: sentence('mend.keep.to', { most }),
  };
}

function missing(kind: Kind, given: Readings): readonly Refusal[] {
  return kind.fields
    .filter((field) => field.required && !Object.hasOwn(given, field.name))
    .map((field) => ({
      field: field.name,
      what: sentence('refuse.missing', {
        kind: kindText(kind.kind),
        field: fieldText(kind.kind, field.name),
      }),
      mend:
        field.quantity === 'word'
          ? sentence('mend.say.one.of', { words: field.words })
          : sentence('mend.type'),
    }));
}
