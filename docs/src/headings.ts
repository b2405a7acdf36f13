export interface Heading {
  readonly depth: number;
  readonly id: string;
  /** Without marks. */
  readonly text: string;
}

/** Gives the headings of a page their names, as the place where the pages are read in the repository does. */
export function headingNames(): (text: string) => string {
  const taken = new Map<string, number>();
  return (text) => {
    const name = text
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, '')
      .trim()
      .replaceAll(' ', '-');
    const before = taken.get(name) ?? 0;
    taken.set(name, before + 1);
    return before === 0 ? name : `${name}-${before}`;
  };
}
