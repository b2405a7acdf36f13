import { judge, ownSheet } from '@firnbook/bench/checks';
import { capital } from './constants-page.ts';
import { escaped } from './escaped.ts';
import type { Framed } from './frame.ts';
import { cited, numberHtml } from './words.ts';

const titles: Readonly<Record<string, string>> = {
  '01_ice': 'Ice',
  '02_firn': 'Firn',
  '03_age': 'Age',
  '04_horizons': 'Dated horizons, decay, lead-210',
  '05_creep': 'Creep and hole closure',
  '06_drill': 'Drill, cable and hole',
  '07_cold': 'Heat',
  '08_uncertainty': 'Uncertainty',
  '09_chem': 'Chemistry',
  '10_stats': 'Statistics',
  '11_ident': 'Identifiers',
  '12_melt': 'Melt and water',
  '13_radar': 'Radar',
};

const states = { pass: 'holds', fail: 'does not hold', 'not computed': 'not computed' } as const;

/** Significant digits shown of what is computed: some more than most of the printed numbers have. */
const shown = 10;
/** Lines of one value that are shown; the rest is counted. */
const most = 12;

/** Every published number that stands in the project, beside what the functions give for it now. */
export function checksPage(): Framed {
  const judged = ownSheet().map((check) => ({
    ...judge(check),
    formula: check.formula,
    unit: check.unit,
    provenance: check.provenance,
  }));
  const sections = [...new Set(judged.map(({ section }) => section))].map((section) => ({
    id: section.replace(/^\d+_/, ''),
    text: titles[section] ?? capital(section.replace(/^\d+_/, '')),
    own: judged.filter((one) => one.section === section),
  }));
  const count = (state: keyof typeof states): number => judged.filter((one) => one.state === state).length;
  const head = ['check', 'expected', 'computed', 'unit', 'tolerance', 'result', 'by']
    .map((word) => `<th scope="col">${word}</th>`)
    .join('');
  return {
    name: 'checks',
    title: 'All checks',
    headings: sections.map(({ id, text }) => ({ depth: 2, id, text })),
    html: `<p>Computed when these pages were made: of ${judged.length} numbers ${count('pass')} hold within their own tolerance,
${count('fail')} do not, ${count('not computed')} are not computed. “Published” was printed in the source that is named, “recomputed” was worked out
by other means than ours. Run it yourself: <code>npm run checks</code>.</p>
${sections
  .map(
    ({ id, text, own }) => `<h2 id="${id}">${escaped(text)}</h2>
<div class="scroll"><table class="checks"><thead><tr>${head}</tr></thead>
<tbody>${own
      .map(
        (one) =>
          `<tr><th scope="row"><code>${escaped(one.id)}</code></th><td class="num">${valueHtml(one.expected)}</td><td class="num">${one.state === 'not computed' ? '' : valueHtml(one.computed)}</td><td>${escaped(one.unit)}</td><td>${escaped(one.tolerance)}</td><td${one.state === 'fail' ? ' class="call"' : ''}>${states[one.state]}${one.state === 'pass' ? '' : `<small>${escaped(one.because.join('; '))}</small>`}</td><td>${cited(one.formula)}<small>${escaped(one.provenance)}</small></td></tr>`,
      )
      .join('\n')}</tbody></table></div>`,
  )
  .join('\n')}`,
  };
}

/** A number or words; of a list or of named numbers one a line, each with the way to it. */
function valueHtml(value: unknown): string {
  const lines = leaves(value, '').map(
    ([path, one]) =>
      `${path === '' ? '' : `${escaped(path)}: `}${typeof one === 'number' ? numberHtml(Number(one.toPrecision(shown))) : escaped(String(one))}`,
  );
  const rest = lines.length - most;
  return [...lines.slice(0, most), ...(rest > 0 ? [`and ${rest} more`] : [])].join('<br>');
}

const leaves = (value: unknown, path: string): readonly (readonly [string, unknown])[] =>
  value === null || typeof value !== 'object'
    ? [[path, value]]
    : Object.entries(value).flatMap(([name, one]) =>
        leaves(one, Array.isArray(value) ? path : path === '' ? name : `${path} ${name}`),
      );
