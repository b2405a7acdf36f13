import { escaped } from './escaped.ts';
import type { Heading } from './headings.ts';

export interface Framed {
  /** Name of its file without the ending. */
  readonly name: string;
  readonly title: string;
  readonly headings: readonly Heading[];
  readonly html: string;
}

/** Pages that every page leads to. */
const places = [
  ['index', 'Methods'],
  ['relations', 'Relations'],
  ['constants', 'Constants'],
  ['checks', 'Checks'],
] as const;

/** A whole document around a page's own: the way through the site, what stands on the page, the page. */
export function framed({ name, title, headings, html }: Framed): string {
  const links = places.map(
    ([to, words]) => `<li><a href="${to}.html"${to === name ? ' aria-current="page"' : ''}>${words}</a></li>`,
  );
  const contents = headings.filter(({ depth }) => depth === 2);
  const list = contents.map(({ id, text }) => `<li><a href="#${escaped(id)}">${escaped(text)}</a></li>`);
  const toc =
    contents.length < 2
      ? ''
      : `<nav class="contents" aria-labelledby="contents"><h2 id="contents">On this page</h2><ol>${list.join('')}</ol></nav>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">
<title>${escaped(title)} · Firnbook</title>
<link rel="icon" href="/icon.svg" type="image/svg+xml">
<link rel="stylesheet" href="fonts.css">
<link rel="stylesheet" href="method.css">
<script src="look.js"></script>
</head>
<body>
<a class="skip" href="#page">To the text</a>
<header>
<p><a href="/"><b>Firnbook</b></a> <span>how numbers are made</span></p>
<nav aria-label="Methods"><ul>${links.join('')}</ul></nav>
</header>
<main id="page" tabindex="-1"${toc === '' ? '' : ' class="with-contents"'}>
<h1>${escaped(title)}</h1>
${toc}
<article>
${html}
</article>
</main>
</body>
</html>
`;
}
