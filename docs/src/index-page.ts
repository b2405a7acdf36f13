import { capital } from './constants-page.ts';
import { escaped } from './escaped.ts';
import type { Framed } from './frame.ts';
import { headingNames } from './headings.ts';
import type { Page } from './page.ts';
import { subjectsOfPages } from './relations-pages.ts';

/** Subjects of pages that no relation names. */
const others: Readonly<Record<string, string>> = {
  depth: 'depth',
  'depth-acceptance': 'depth',
  'depth-scales': 'depth',
  inclination: 'depth',
  verdict: 'depth',
  closure: 'tables',
  spreadsheets: 'tables',
  'random-numbers': 'statistics',
  'piece-density': 'density',
  'water-equivalent': 'density',
  melt: 'density',
  firn: 'firn',
  ice: 'ice',
};

const titles: Readonly<Record<string, string>> = {
  depth: 'Depth',
  density: 'Density and water',
  firn: 'Firn',
  ice: 'Ice',
  dating: 'Age',
  horizons: 'Dated horizons',
  mechanics: 'Drill, cable and hole',
  heat: 'Heat',
  geometry: 'Geometry',
  radar: 'Radar',
  chemistry: 'Chemistry',
  statistics: 'Statistics',
  identifiers: 'Identifiers',
  tables: 'Tables and files',
};

/** All pages by subject, each with what it is about. */
export function indexPage(pages: readonly Page[]): Framed {
  const nameOf = headingNames();
  const named = subjectsOfPages();
  const subjectOf = (page: Page): string => others[page.name] ?? named.get(page.name) ?? 'more';
  const subjects = [...Object.keys(titles), ...pages.map(subjectOf)].filter(
    (subject, at, all) => all.indexOf(subject) === at && pages.some((page) => subjectOf(page) === subject),
  );
  const parts = subjects.map((subject) => {
    const text = titles[subject] ?? capital(subject);
    return { id: nameOf(text), text, own: pages.filter((page) => subjectOf(page) === subject) };
  });
  return {
    name: 'index',
    title: 'How numbers are made',
    headings: parts.map(({ id, text }) => ({ depth: 2, id, text })),
    html: `<p>One page for each computation: its equation, what the symbols mean, where it comes from, where it holds, an example
that the tests work through, and what it was checked against. All of it is on this device once it was opened at the camp
computer.</p>
${parts
  .map(
    ({ id, text, own }) => `<h2 id="${id}">${escaped(text)}</h2>
<dl class="pages">${own
      .map(
        ({ name, title, intro }) =>
          `<div><dt><a href="${name}.html">${escaped(title)}</a></dt><dd>${firstSentence(intro)}</dd></div>`,
      )
      .join('\n')}</dl>`,
  )
  .join('\n')}`,
  };
}

/** Of a paragraph; links in it are taken out, since the title leads on already. Where code lies is no sentence. */
function firstSentence(html: string): string {
  const words = html.replace(/<\/?a\b[^>]*>/g, '');
  if (words.startsWith('Code:')) return '';
  return /^(?:<math[\s\S]*?<\/math>|<[^>]*>|[^<])*?\.(?=\s|$)/.exec(words)?.[0] ?? words;
}
