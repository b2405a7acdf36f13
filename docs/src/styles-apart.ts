import { escaped } from './escaped.ts';

/**
 * Takes style attributes out of pages into classes: the server's content policy allows no styles within a page.
 *
 * @returns the pages, and the rules of the classes
 */
export function stylesApart(pages: ReadonlyMap<string, string>): {
  readonly pages: ReadonlyMap<string, string>;
  readonly rules: string;
} {
  const names = new Map<string, string>();
  const nameOf = (style: string): string => {
    const known = names.get(style) ?? `s${names.size + 1}`;
    names.set(style, known);
    return known;
  };
  const apart = (tag: string): string => {
    const style = / style="([^"]*)"/.exec(tag)?.[1];
    if (style === undefined) return tag;
    const bare = tag.replace(/ style="[^"]*"/, '');
    const name = escaped(nameOf(style));
    return / class="/.test(bare)
      ? bare.replace(/ class="/, ` class="${name} `)
      : bare.replace(/^<[\w-]+/, (open) => `${open} class="${name}"`);
  };
  const done = new Map(
    [...pages].map(([path, html]) => [path, html.replace(/<[a-z][^<>]*>/gi, apart)] as const),
  );
  return { pages: done, rules: [...names].map(([style, name]) => `.${name}{${style}}`).join('\n') };
}
