import { type Constant, constants } from '@firnbook/science/constants';
import { escaped } from './escaped.ts';
import type { Framed } from './frame.ts';
import { headingNames } from './headings.ts';
import { cited, numberHtml, symbolHtml, unitHtml } from './words.ts';

const seenWords: Readonly<Record<Constant['seen'], string>> = {
  read: 'read',
  computed: 'computed',
  'from memory': 'from memory',
};

/** Every constant that a result may rest on, by subject, as the code has it. */
export function constantsPage(): Framed {
  const nameOf = headingNames();
  const subjects = Object.entries(constants)
    .filter(([, own]) => Object.keys(own).length > 0)
    .map(([subject, own]) => ({ id: nameOf(subject), text: capital(subject), own: Object.values(own) }));
  const parts = subjects.map(
    ({ id, text, own }) => `<h2 id="${id}">${escaped(text)}</h2>
<div class="scroll"><table><thead><tr><th scope="col">symbol</th><th scope="col">what</th><th scope="col">value</th><th scope="col">unit</th><th scope="col">source</th><th scope="col">known</th></tr></thead>
<tbody>${own.map(row).join('\n')}</tbody></table></div>`,
  );
  return {
    name: 'constants',
    title: 'All constants',
    headings: subjects.map(({ id, text }) => ({ depth: 2, id, text })),
    html: `<p>Made from the tables that the computations read, so that no other number is in use. After ± stands the standard
uncertainty that the source gives. “Read” was read in the source or in a public copy of it, “computed” follows from
others, “from memory” was not looked up: check it before you lean on it.</p>
${parts.join('\n')}`,
  };
}

const row = ({ symbol, what, value, sd, unit, source, seen }: Constant): string =>
  `<tr><td class="symbol">${symbolHtml(symbol)}</td><th scope="row">${escaped(what)}</th><td class="num">${numberHtml(value)}${spread(sd)}</td><td class="num">${unitHtml(unit)}</td><td>${cited(source)}</td><td>${seenWords[seen]}</td></tr>`;

const spread = (sd: number | null): string => {
  if (sd === null) return '<small>not given</small>';
  return sd === 0 ? '<small>exact</small>' : `\u00a0±\u00a0${numberHtml(sd)}`;
};

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
