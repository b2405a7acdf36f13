import type { Relation } from '@firnbook/science/relations';
import { type TextKey, t } from '../texts/t.ts';

/** What a relation takes or gives, in the crew's words; quantities-named.test.ts finds one that has none. */
export const quantityKey = ({ name }: Relation, side: 'take' | 'give', quantity: string): TextKey =>
  `calc.${side}.${name}.${quantity}` as TextKey;

export const quantityWords = (relation: Relation, side: 'take' | 'give', quantity: string): string =>
  t(quantityKey(relation, side, quantity));
