import { type Book, createBook, thingsOf } from '@firnbook/campaign';
import { hashText, open, type Sealed } from '@firnbook/journal';

/** A book of sealed entries, every hash checked. */
export function bookOf(entries: readonly Sealed[]): Book {
  const book = createBook();
  book.add(
    entries.map((sealed) => {
      const opened = open(sealed);
      if (!opened.ok) throw new Error(opened.problem);
      return opened.entry;
    }),
  );
  return book;
}

/**
 * What a book says, as lines: for each thing its name, and each reading with its value and what was struck.
 * Later versions may show more; what was shown once they must go on showing.
 */
export function lines(book: Book): readonly string[] {
  const view = book.view();
  const things = [...view.people, ...view.holes.flatMap((hole) => [hole, ...thingsOf(hole)])];
  return things.flatMap((thing) =>
    Object.values(thing.readings)
      .map(
        ({ field, text, value, struck }) =>
          `${thing.kind} ${thing.name} ${field} "${text}" ${value} (${struck.map((one) => one.text).join(', ')})`,
      )
      .sort(),
  );
}

export const digestOfLines = (book: Book): string => hashText(lines(book).join('\n'));
