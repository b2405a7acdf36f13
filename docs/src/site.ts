import type { Chart } from '@firnbook/drawing';
import { checksPage } from './checks-page.ts';
import { constantsPage } from './constants-page.ts';
import { type Framed, framed } from './frame.ts';
import { indexPage } from './index-page.ts';
import { page } from './page.ts';
import { relationsOn, relationsPages } from './relations-pages.ts';
import { stylesApart } from './styles-apart.ts';

/**
 * The method site: every page of docs/method, the lists of relations, constants and checks, and the way to all of them.
 *
 * @param texts Markdown by the page's name
 * @returns HTML by file name, and the style rules that the pages need besides their sheet
 * @throws Error where a page can't be made: what and where
 */
export function site(
  texts: ReadonlyMap<string, string>,
  charts: ReadonlyMap<string, Chart>,
): { readonly pages: ReadonlyMap<string, string>; readonly rules: string } {
  const own = [...texts].map(([name, text]) => page(name, text, charts));
  const methods = own.map((one): Framed => {
    const more = relationsOn(one.name);
    if (more === '') return one;
    const heading = { depth: 2, id: 'on-the-command-line', text: 'On the command line' };
    return { ...one, html: `${one.html}${more}`, headings: [...one.headings, heading] };
  });
  const all = [indexPage(own), ...relationsPages(own), constantsPage(), checksPage(), ...methods];
  const twice = all.find(({ name }, at) => all.findIndex((one) => one.name === name) !== at);
  if (twice !== undefined) throw new Error(`Two pages want to be called ${twice.name}.html.`);
  return stylesApart(new Map(all.map((one) => [`${one.name}.html`, framed(one)])));
}
