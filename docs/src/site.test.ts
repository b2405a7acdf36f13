import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ownSheet } from '@firnbook/bench/checks';
import { constants } from '@firnbook/science/constants';
import { catalogue } from '@firnbook/science/relations';
import { describe, expect, it } from 'vitest';
import { plain } from './page.ts';
import { site } from './site.ts';
import { charts, methodFolder, methodTexts } from './sources.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const texts = methodTexts();
const figures = await charts();
const { pages, rules } = site(texts, figures);
const relations = Object.values(catalogue).flat();
const html = (name: string): string => pages.get(`${name}.html`) ?? '';
const ids = new Map(
  [...pages].map(([name, text]) => [
    name,
    new Set([...text.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id!)),
  ]),
);

/** Files that the site's build adds to its pages. */
const beside = ['fonts.css', 'method.css', 'look.js', '/icon.svg', '/'];

/** Pages that compute nothing: there is nothing to work through. */
const withoutExample = ['closure', 'depth', 'depth-acceptance'];

describe('method pages', () => {
  it.each([...texts.keys()])('%s has a source and, where it computes, a worked example', (name) => {
    const text = texts.get(name)!;
    expect(text).toMatch(/source|references/i);
    if (!withoutExample.includes(name)) expect(text).toMatch(/^## Worked example/m);
  });

  it.each([...texts.keys()])('%s stands on the first page and leads on', (name) => {
    expect(html('index')).toContain(`<a href="${name}.html">`);
    expect(html(name)).toMatch(/<h1>[^<]/);
  });

  it('are each under a subject', () => {
    expect(html('index')).not.toContain('<h2 id="more">');
  });

  it('lead to files that are there', () => {
    const dead = [...texts].flatMap(([name, text]) =>
      [
        ...text
          .replace(/```[\s\S]*?```|\$[^$]+\$/g, '')
          .matchAll(/\]\((?!https?:|#)([^)#\s]+)(?:#[^)\s]*)?\)/g),
      ]
        .map(([, to]) => to!)
        .filter((to) => !existsSync(resolve(methodFolder, to)))
        .map((to) => `${name}.md: ${to}`),
    );
    expect(dead).toEqual([]);
  });
});

describe('site', () => {
  it('has no dead link and no dead section', () => {
    const dead: string[] = [];
    for (const [name, text] of pages)
      for (const [, to] of text.matchAll(/ (?:href|src)="([^"]+)"/g)) {
        if (/^https:/.test(to!) || beside.includes(to!)) continue;
        if (figures.has(/^([a-z0-9-]+)\.(?:svg|csv)$/.exec(to!)?.[1] ?? '')) continue;
        const [file, section] = to!.split('#') as [string, string?];
        const there = ids.get(file === '' ? name : file);
        if (there === undefined || (section !== undefined && !there.has(section)))
          dead.push(`${name}: ${to}`);
      }
    expect(dead).toEqual([]);
  });

  it('names nothing twice on a page', () => {
    for (const [name, text] of pages) {
      const all = [...text.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
      expect(`${name}: ${all.filter((id, at) => all.indexOf(id) !== at).join(' ')}`).toBe(`${name}: `);
    }
  });

  it('holds no style and no script of its own within a page (the content policy refuses them)', () => {
    for (const text of pages.values()) {
      expect(text).not.toMatch(/<[a-z][^<>]* style=/i);
      expect(text).not.toMatch(/<style|<script(?! src="look\.js"><\/script>)| on[a-z]+="/i);
    }
    expect(rules).not.toContain('<');
  });

  it('lists every constant with its unit and source', () => {
    const text = plain(html('constants'));
    for (const { what, source } of Object.values(constants).flatMap((own) => Object.values(own))) {
      expect(text).toContain(what);
      expect(text).toContain(source);
    }
  });

  it('lists every check, and what came of it', () => {
    const rows = html('checks').match(/<tr><th scope="row">/g) ?? [];
    expect(rows).toHaveLength(ownSheet().length);
    expect(plain(html('checks'))).toContain(`of ${ownSheet().length} numbers`);
  });

  it.each(relations.map((one) => [one.name, one] as const))('describes %s, with its page', (name, one) => {
    const [subject] = Object.entries(catalogue).find(([, own]) => own.includes(one))!;
    const text = html(`relations-${subject.replaceAll(' ', '-')}`);
    expect(text).toContain(`<h2 id="${name}">`);
    expect(text).toContain(`npx firnbook calc ${name}`);
    expect(html('relations')).toContain(`#${name}"`);
    expect([...texts.keys()]).toContain(one.page);
    expect(html(one.page)).toContain(`#${name}"`);
  });
});

describe('screens', () => {
  const files = readdirSync(join(root, 'apps/web/src'), { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.tsx'),
  );
  const links = files.flatMap((file) =>
    [
      ...readFileSync(join(root, 'apps/web/src', file), 'utf8').matchAll(
        /<MethodLink\s+page="([^"]+)"(?:\s+section="([^"]+)")?/g,
      ),
    ].map(([, page, section]) => [`${dirname(file)}/${file}`, page!, section] as const),
  );

  it('lead from their numbers to pages', () => {
    expect(links.length).toBeGreaterThan(15);
  });

  it.each(links)('%s leads to a page and a section that are there: %s %s', (_, page, section) => {
    const there = ids.get(`${page}.html`);
    expect(there).toBeDefined();
    if (section !== undefined) expect([...there!]).toContain(section);
  });
});
