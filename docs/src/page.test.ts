import type { Chart } from '@firnbook/drawing';
import { describe, expect, it } from 'vitest';
import { page } from './page.ts';

const chart: Chart = {
  title: 'Age by depth',
  x: { label: 'age', unit: 'a', from: 0, to: 40 },
  y: { label: 'depth', unit: 'm', from: 30, to: 0 },
  curves: [
    {
      label: 'age',
      at: [
        [0, 0],
        [35, 28],
      ],
    },
  ],
};
const made = (text: string) => page('sample', `# A sample\n\n${text}`, new Map([['age', chart]]));

describe('page', () => {
  it('sets displayed and inline equations as MathML', () => {
    const { html } = made('With $a_0 = 2$:\n\n$$\nt = \\frac{1}{a} \\ln(1 + z)\n$$\n');
    expect(html).toContain('<div class="equation"><math');
    expect(html).toContain('<mfrac>');
    expect(html.match(/<math/g)).toHaveLength(2);
    expect(html).not.toContain('$');
  });

  it('refuses an equation that can not be read, with the page and the equation', () => {
    expect(() => made('$$\n\\frac{1}{\n$$\n')).toThrow(
      /docs\/method\/sample\.md: the equation "\\frac\{1\}\{"/,
    );
    expect(() => made('$\\nothing{2}$')).toThrow('docs/method/sample.md');
  });

  it('leaves sums of money, code and what is no equation alone', () => {
    const { html } = made('Costs $5 or 7 $ and `$a$`.');
    expect(html).not.toContain('<math');
  });

  it('draws a figure where the page has it, and says what it shows', () => {
    const { html } = made('![Age grows with depth.](figures/age.svg)');
    expect(html).toContain('<figure><svg role="img" aria-label="Age grows with depth."');
    expect(html).toContain('<figcaption>Age grows with depth. <a href="age.svg" download>');
  });

  it('refuses a figure that is not there, and one without words', () => {
    expect(() => made('![Words](figures/gone.svg)')).toThrow('there is no docs/src/figures/gone.ts');
    expect(() => made('![](figures/age.svg)')).toThrow("no words for those who can't see it");
  });

  it('turns links to pages into theirs, and files of the repository into words', () => {
    const { html } = made(
      '[Firn](firn.md#fit), [here](#a-part), [code](../../packages/science/src/units.ts).',
    );
    expect(html).toContain('<a href="firn.html#fit">Firn</a>, <a href="#a-part">here</a>, code.');
  });

  it('names headings as their addresses have them, twice the same one with a number', () => {
    const { headings } = made('## Close-off, lock-in\n\n### `code` of h_550\n\n## Close-off, lock-in\n');
    expect(headings.map(({ id }) => id)).toEqual([
      'close-off-lock-in',
      'code-of-h_550',
      'close-off-lock-in-1',
    ]);
  });

  it('writes indices below in running words, not in code', () => {
    const { html } = made('D_(r−1) and h_550 of length_cm, `h_550`.');
    expect(html).toContain('D<sub>r−1</sub> and h<sub>550</sub> of length_cm, <code>h_550</code>');
  });

  it('links papers by their doi', () => {
    expect(made('Nye 1963, doi:10.3189/S0022143000028367.').html).toContain(
      '<a href="https://doi.org/10.3189/S0022143000028367" rel="noreferrer">doi:10.3189/S0022143000028367</a>.',
    );
  });

  it('takes tags for words', () => {
    expect(made('a <script>alert(1)</script> b').html).not.toContain('<script');
  });

  it('has its title apart from its text', () => {
    const { title, intro, html } = made('What it is about.\n\nMore.');
    expect({ title, intro }).toEqual({ title: 'A sample', intro: 'What it is about.' });
    expect(html).not.toContain('A sample');
    expect(() => page('sample', 'no title', new Map())).toThrow('docs/method/sample.md has no title');
  });
});
