import { kindOf, type ThingView } from '@firnbook/campaign';
import { kindName, nameHere, wordName } from './names.ts';
import { t } from './t.ts';

/** Kinds whose names say by themselves what they are. */
const ownNames = ['run', 'piece', 'zero', 'sounding', 'campaign', 'device', 'set-up', 'contamination'];

/** "B-R034"; "Cable check: B-R034" where the name is another thing's, "Weather" where there is none. */
export function thingName(thing: ThingView): string {
  const name = ownName(thing);
  // "Pit 3" says what it is.
  const saysKind = name.toLowerCase().startsWith(kindName(thing.kind).toLowerCase());
  if (saysKind || ownNames.includes(thing.kind)) return name;
  return name === '' ? kindName(thing.kind) : t('thing.named', { kind: kindName(thing.kind), name });
}

/** Its name without its kind: "Pit 3", "Balance"; empty where it has none. */
export function ownName(thing: ThingView): string {
  const by = kindOf(thing.kind)?.calledBy;
  const isWord = by !== undefined && fieldHoldsWords(thing.kind, by);
  return isWord && thing.name !== '' ? wordName(thing.kind, by, thing.name) : nameHere(thing);
}

const fieldHoldsWords = (kind: string, field: string): boolean =>
  kindOf(kind)?.fields.some((one) => one.name === field && one.quantity === 'word') ?? false;
