import { type Field, fieldOf, kindOf } from '@firnbook/campaign';

/** The readings that a kind of thing may have, in the order of its table; its number is its name and stands apart. */
export function fieldsOf(kind: string): readonly Field[] {
  return (kindOf(kind)?.fields ?? []).filter((field) => field.name !== 'number');
}

/** How a field reads on a screen: in the numbers' type or in the words'. */
export function isFigure(kind: string, field: string): boolean {
  const table = kindOf(kind);
  const found = table === undefined ? undefined : fieldOf(table, field);
  return found !== undefined && ('usual' in found || found.quantity === 'position');
}
