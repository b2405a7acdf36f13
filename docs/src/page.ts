import { type Chart, chart, toSvgInPage } from '@firnbook/drawing';
import { Marked, type Tokens } from 'marked';
import { equation } from './equation.ts';
import { escaped } from './escaped.ts';
import { type Heading, headingNames } from './headings.ts';

export interface Page {
  /** Stem of its file: "firn". */
  readonly name: string;
  readonly title: string;
  /** First paragraph, as HTML. */
  readonly intro: string;
  readonly headings: readonly Heading[];
  readonly html: string;
}

/**
 * A method page of Markdown as HTML: equations as MathML, figures drawn, links to other pages turned to theirs.
 *
 * @throws Error where an equation can't be read, a figure is not there, or the page has no title
 */
export function page(name: string, text: string, charts: ReadonlyMap<string, Chart>): Page {
  const where = `docs/method/${name}.md`;
  const nameOf = headingNames();
  const headings: Heading[] = [];
  let title: string | undefined;
  let intro: string | undefined;
  let drawn = 0;
  const marked = new Marked({ gfm: true });
  marked.use({
    extensions: [
      {
        name: 'displayed',
        level: 'block',
        start: (source) => source.match(/^\$\$/m)?.index,
        tokenizer: (source) => {
          const found = /^\$\$([\s\S]+?)\$\$[ \t]*(?:\n|$)/.exec(source);
          return found === null ? undefined : { type: 'displayed', raw: found[0], tex: found[1]!.trim() };
        },
        renderer: ({ tex }) => `<div class="equation">${equation(tex as string, true, where)}</div>\n`,
      },
      {
        name: 'inline',
        level: 'inline',
        start: (source) => source.match(/\$(?=[^\s$])/)?.index,
        tokenizer: (source) => {
          const found = /^\$(?!\s)((?:\\\$|[^$])+?)(?<!\s)\$(?!\d)/.exec(source);
          return found === null ? undefined : { type: 'inline', raw: found[0], tex: found[1] };
        },
        renderer: ({ tex }) => equation(tex as string, false, where),
      },
      {
        name: 'doi',
        level: 'inline',
        start: (source) => source.match(/doi:10\./)?.index,
        tokenizer: (source) => {
          const found = /^doi:(10\.\d{4,9}\/[^\s,;)\]]*[^\s,;.)\]])/.exec(source);
          return found === null ? undefined : { type: 'doi', raw: found[0], doi: found[1] };
        },
        renderer: ({ doi }) =>
          `<a href="https://doi.org/${escaped(encodeURI(doi as string))}" rel="noreferrer">doi:${escaped(doi as string)}</a>`,
      },
    ],
    renderer: {
      heading({ tokens, depth, text: raw }: Tokens.Heading) {
        const html = this.parser.parseInline(tokens);
        if (depth === 1) {
          title ??= html;
          return '';
        }
        const words = plain(html);
        const id = nameOf(raw.replace(/[`*]/g, ''));
        headings.push({ depth, id, text: words });
        return `<h${depth} id="${escaped(id)}">${html}</h${depth}>\n`;
      },
      paragraph({ tokens }: Tokens.Paragraph) {
        const figure =
          tokens.length === 1 && tokens[0]?.type === 'image' ? (tokens[0] as Tokens.Image) : null;
        if (figure !== null) return drawing(figure);
        const html = this.parser.parseInline(tokens);
        intro ??= html;
        return `<p>${html}</p>\n`;
      },
      image: (image: Tokens.Image) => drawing(image),
      link({ href, tokens }: Tokens.Link) {
        const html = this.parser.parseInline(tokens);
        const address = addressOf(href);
        return address === null ? html : `<a href="${escaped(address)}">${html}</a>`;
      },
      table(table: Tokens.Table) {
        const cells = (row: readonly Tokens.TableCell[], kind: 'th' | 'td') =>
          row
            .map(({ tokens, align }) => {
              const html = this.parser.parseInline(tokens);
              // A heading that says nothing is none.
              const tag = html === '' ? 'td' : kind;
              const side = align === 'right' || align === 'center' ? ` class="${align}"` : '';
              // Some readers pass over equations in headings of columns: there words stand behind one.
              const words =
                tag === 'th' && html.startsWith('<math')
                  ? `<span class="hidden">${escaped(plain(html))}</span>`
                  : '';
              const seen = words === '' ? html : html.replace('<math', '<math aria-hidden="true"');
              return `<${tag}${tag === 'th' ? ' scope="col"' : ''}${side}>${seen}${words}</${tag}>`;
            })
            .join('');
        const rows = table.rows.map((row) => `<tr>${cells(row, 'td')}</tr>`).join('\n');
        return `<div class="scroll"><table><thead><tr>${cells(table.header, 'th')}</tr></thead>\n<tbody>${rows}</tbody></table></div>\n`;
      },
      code: ({ text: code }: Tokens.Code) => `<pre><code>${escaped(code)}</code></pre>\n`,
      text(token: Tokens.Text | Tokens.Escape) {
        return 'tokens' in token && token.tokens !== undefined
          ? this.parser.parseInline(token.tokens)
          : indexed(escaped(token.text));
      },
      // What is written in the pages is words; nothing of theirs is taken for tags.
      html: ({ text: raw }: Tokens.HTML | Tokens.Tag) => escaped(raw),
    },
  });

  function drawing({ href, text: says }: Tokens.Image): string {
    const figure = /^figures\/([a-z0-9-]+)\.svg$/.exec(href)?.[1];
    const input = figure === undefined ? undefined : charts.get(figure);
    if (figure === undefined || input === undefined)
      throw new Error(`${where}: there is no docs/src/figures/${figure ?? href}.ts to draw ${href} from.`);
    if (says.trim() === '')
      throw new Error(`${where}: the figure ${href} has no words for those who can't see it.`);
    drawn += 1;
    return `<figure>${toSvgInPage(chart(input), says, `f${drawn}`)}<figcaption>${escaped(says)} <a href="${figure}.svg" download>Drawing (SVG)</a> <a href="${figure}.csv" download>Numbers (CSV)</a></figcaption></figure>\n`;
  }

  const html = parsed(marked, text);
  if (title === undefined) throw new Error(`${where} has no title: begin it with "# ".`);
  return { name, title: plain(title), intro: intro ?? '', headings, html };
}

/** The parser asks for reports of every error to its makers; ours are not theirs. */
function parsed(marked: Marked, text: string): string {
  try {
    return marked.parse(text, { async: false });
  } catch (error) {
    const says = error instanceof Error ? error.message : String(error);
    throw new Error(says.replace(/\nPlease report this to .*$/, ''));
  }
}

/** "h_550" and "D_(r−1)" in running words, with what stands below it there. */
const indexed = (html: string): string =>
  html.replace(
    /(?<![\p{L}\p{N}_])(\p{L}['′]?)_(?:\(([^()]*)\)|([\p{L}\p{N}]{1,6})(?![\p{L}\p{N}_]))/gu,
    (_, symbol: string, bracketed?: string, bare?: string) => `${symbol}<sub>${bracketed ?? bare}</sub>`,
  );

/** Where a link leads on the site: other pages to theirs, files of the repository nowhere. */
function addressOf(href: string): string | null {
  if (/^https?:/.test(href)) return href;
  const [, stem, section = ''] = /^(?:\.\/)?([a-z0-9-]+)\.md(#.*)?$/.exec(href) ?? [];
  if (stem !== undefined) return `${stem}.html${section}`;
  return href.startsWith('#') ? href : null;
}

/** HTML's words without its tags. */
export const plain = (html: string): string =>
  html
    .replace(/<annotation[\s\S]*?<\/annotation>/g, '')
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&');
