import { expect, it } from 'vitest';
import { apply, CORRECTED, createBook, emptyPage, SAID, standing, UNKNOWN } from './book.ts';
import { inventedEntry } from './invented.ts';

const said = inventedEntry({}, { id: 'a', kind: SAID, body: { hole: 'CER-A', readings: { value: '1 cm' } } });
const correct = (id: string, corrects: string[], value: string) =>
  inventedEntry(
    { device: id },
    { id, kind: CORRECTED, corrects, body: { hole: 'CER-A', thing: 'a', readings: { value } } },
  );

it('I8: two corrections of one reading both stand, a third that names both settles it', () => {
  const page = emptyPage();
  for (const entry of [said, correct('b', ['a'], '2 cm'), correct('c', ['a'], '3 cm')]) apply(page, entry);
  expect(standing(page.things.get('a')!).map((claim) => claim.text)).toEqual(['2 cm', '3 cm']);
  apply(page, correct('d', ['b', 'c'], '4 cm'));
  expect(standing(page.things.get('a')!).map((claim) => claim.text)).toEqual(['4 cm']);
});

it('I4: a correction folded before its target is counted as early', () => {
  const page = emptyPage();
  apply(page, correct('b', ['a'], '2 cm'));
  expect(page.early).toBe(1);
});

it('J5: unknown kinds are counted', () => {
  const book = createBook();
  book.add([inventedEntry({}, { kind: UNKNOWN, body: {} })]);
  expect(book.state('campaign')!.notUnderstood).toBe(1);
});
