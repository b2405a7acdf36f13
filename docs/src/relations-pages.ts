import { catalogue, type Relation, type Taken } from '@firnbook/science/relations';
import { capital } from './constants-page.ts';
import { escaped } from './escaped.ts';
import type { Framed } from './frame.ts';
import type { Page } from './page.ts';
import { cited, numberHtml, symbolHtml, unitHtml } from './words.ts';

const filled = Object.entries(catalogue).filter(([, relations]) => relations.length > 0);

/** One page that lists every relation, and one for each subject that says what they take and give. */
export function relationsPages(pages: readonly Page[]): readonly Framed[] {
  const overview = filled.map(
    ([
      subject,
      relations,
    ]) => `<h2 id="${idOf(subject)}"><a href="${fileOf(subject)}.html">${escaped(capital(subject))}</a></h2>
<ul class="relations">${relations
      .map(
        ({ name, title }) =>
          `<li><a href="${fileOf(subject)}.html#${name}"><code>${name}</code></a> ${escaped(title)}</li>`,
      )
      .join('\n')}</ul>`,
  );
  const first: Framed = {
    name: 'relations',
    title: 'All relations',
    headings: filled.map(([subject]) => ({ depth: 2, id: idOf(subject), text: capital(subject) })),
    html: `<p>Each can be called by its name, without a book, from the command line: <code>npx firnbook calc NAME</code> says what
it takes, <code>--json</code> gives the answer to programs. Values come with their unit, and with ± a standard
uncertainty where there is one; it is carried through.</p>
${overview.join('\n')}`,
  };
  return [first, ...filled.map(([subject, relations]) => subjectPage(subject, relations, pages))];
}

/** The relations that a method page describes, for its end. */
export function relationsOn(name: string): string {
  const own = filled.flatMap(([subject, relations]) =>
    relations.filter(({ page }) => page === name).map((relation) => ({ subject, relation })),
  );
  if (own.length === 0) return '';
  return `<h2 id="on-the-command-line">On the command line</h2>
<ul class="relations">${own
    .map(
      ({ subject, relation }) =>
        `<li><a href="${fileOf(subject)}.html#${relation.name}"><code>${relation.name}</code></a> ${escaped(relation.title)}</li>`,
    )
    .join('\n')}</ul>`;
}

/** Subjects of the pages that relations name, in the catalogue's order. */
export const subjectsOfPages = (): ReadonlyMap<string, string> =>
  new Map(
    filled
      .toReversed()
      .flatMap(([subject, relations]) => relations.map(({ page }) => [page, subject] as const)),
  );

const idOf = (subject: string): string => subject.replaceAll(' ', '-');
const fileOf = (subject: string): string => `relations-${idOf(subject)}`;

function subjectPage(subject: string, relations: readonly Relation[], pages: readonly Page[]): Framed {
  return {
    name: fileOf(subject),
    title: `${capital(subject)}: relations`,
    headings: relations.map(({ name, title }) => ({ depth: 2, id: name, text: title })),
    html: relations.map((relation) => entry(relation, pages)).join('\n'),
  };
}

function entry(relation: Relation, pages: readonly Page[]): string {
  const { name, title, page, source, caution, takes, gives } = relation;
  const method = pages.find((one) => one.name === page);
  const how = method === undefined ? escaped(page) : `<a href="${page}.html">${escaped(method.title)}</a>`;
  const head = (words: readonly string[]) =>
    `<thead><tr>${words.map((word) => `<th scope="col">${word}</th>`).join('')}</tr></thead>`;
  return `<section class="relation">
<h2 id="${name}">${escaped(title)}</h2>
<p>Method: ${how}. Source: ${cited(source)}</p>
${caution === undefined ? '' : `<p class="caution"><strong>Caution:</strong> ${escaped(caution)}</p>\n`}<pre class="command"><code>${escaped(commandLine(relation))}</code></pre>
<div class="scroll"><table>${head(['takes', 'symbol', 'what', 'unit', 'range', 'because'])}
<tbody>${Object.entries(takes)
    .map(([key, taken]) => takenRow(key, taken))
    .join('\n')}</tbody></table></div>
<div class="scroll"><table>${head(['gives', 'symbol', 'what', 'unit'])}
<tbody>${Object.entries(gives)
    .map(
      ([key, given]) =>
        `<tr><th scope="row"><code>${escaped(key)}</code></th><td class="symbol">${symbolHtml(given.symbol)}</td><td>${escaped(given.what)}</td><td class="num">${given.unit === '' ? 'words' : unitHtml(given.unit)}</td></tr>`,
    )
    .join('\n')}</tbody></table></div>
</section>`;
}

function takenRow(key: string, taken: Taken): string {
  const cell = (html: string, kind = '') => `<td${kind === '' ? '' : ` class="${kind}"`}>${html}</td>`;
  const first = `<tr><th scope="row"><code>${escaped(key)}</code></th>${cell(symbolHtml(taken.symbol), 'symbol')}`;
  switch (taken.kind) {
    case 'choice': {
      const [usual, ...others] = taken.options;
      const said = `<b>${escaped(usual ?? '')}</b>${others.map((one) => `; ${escaped(one)}`).join('')}`;
      return `${first}${cell(escaped(taken.what))}${cell('a name')}${cell(said)}${cell('published variants; the first where none is named')}</tr>`;
    }
    case 'text': {
      const usual = taken.usual === undefined ? '' : `; ${escaped(taken.usual)} where none are given`;
      return `${first}${cell(escaped(taken.what))}${cell('words')}${cell(`for example ${escaped(taken.example)}`)}${cell(usual.replace('; ', ''))}</tr>`;
    }
    default: {
      const [least, most] = taken.range;
      const what = `${escaped(taken.what)}${taken.kind === 'numbers' ? ' (a series)' : ''}${
        taken.kind === 'number' && taken.usual !== undefined
          ? `; ${numberHtml(taken.usual)} where none is given`
          : ''
      }`;
      return `${first}${cell(what)}${cell(unitHtml(taken.unit), 'num')}${cell(`${numberHtml(least)} to ${numberHtml(most)}`, 'num')}${cell(cited(taken.because))}</tr>`;
    }
  }
}

/** What a person types, with the values left open. */
function commandLine({ name, takes }: Relation): string {
  const words = Object.entries(takes).flatMap(([key, taken]) => {
    if (taken.kind === 'choice') return [];
    if (taken.kind === 'text') return taken.usual === undefined ? [`${key}="${taken.example}"`] : [];
    if (taken.kind === 'number' && taken.usual !== undefined) return [];
    const unit = taken.unit === '1' ? '' : ` ${taken.unit}`;
    return [taken.kind === 'numbers' ? `${key}="… …${unit}"` : `${key}="…${unit}"`];
  });
  return ['npx firnbook calc', name, ...words].join(' ');
}
