import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { ceredin } from './column/ceredin.suite.ts';
import { coreColumn } from './column/column.ts';
import { oneOfEach, oneOfEachFill, pictureOf } from './kinds.suite.ts';
import { toSvg, toSvgInPage } from './svg.ts';
import { themes } from './theme.ts';

const every = pictureOf([
  ...Object.values(oneOfEach),
  ...oneOfEachFill.map((fill) => ({ is: 'rect', x: 1, y: 2, w: 3, h: 4, fill }) as const),
]);
const parser = 'xmllint';
const noParser = spawnSync(parser, ['--version']).error !== undefined;

describe('toSvg', () => {
  it('is as large as the picture, to the millimetre, and says what it shows', () => {
    const svg = toSvg(every, themes.standard);
    expect(svg).toContain('width="80mm" height="90mm" viewBox="0 0 80 90"');
    expect(svg).toContain('role="img" aria-labelledby="title"');
    expect(svg).toContain('<title id="title">Every kind &amp; fill</title>');
  });

  it('writes the shapes where they are', () => {
    const svg = toSvg(every, themes.standard);
    expect(svg).toContain('<path d="M1 2L3 5L4 2Z" fill="#cfe3ee" stroke="#14222e" stroke-width="0.3"');
    expect(svg).toContain('<rect x="10" y="11" width="12" height="13" fill="#fdf0e8" data-thing="a rect"/>');
    expect(svg).toContain('<circle cx="40" cy="41" r="2" fill="none"');
    expect(svg).toContain('text-anchor="end"');
  });

  it('escapes text and leaves out what XML 1.0 can not hold', () => {
    const hostile = pictureOf([{ ...oneOfEach.text, text: '</text><script>\u0000\ud800"' }]);
    const svg = toSvg(hostile, themes.standard);
    expect(svg).toContain('>&lt;/text&gt;&lt;script&gt;\ufffd\ufffd&quot;</text>');
  });

  it('of the same picture gives the same bytes', () => {
    expect(toSvg(every, themes.night)).toBe(toSvg(structuredClone(every), themes.night));
  });

  it('refuses a coordinate that is no number, and says so', () => {
    const bad = pictureOf([{ ...oneOfEach.rect, x: Number.NaN }]);
    expect(() => toSvg(bad, themes.standard)).toThrow('A shape has the coordinate NaN');
  });

  it.skipIf(noParser).each(['standard', 'sun', 'night'] as const)(
    'in theme %s is well-formed XML (libxml2; skipped where xmllint is absent)',
    (name) => {
      const core = coreColumn(ceredin, { mmPerMetre: 60, window: { from: 26, to: 31 }, width: 90 });
      for (const picture of [every, core]) {
        const svg = toSvg(picture, themes[name], { css: '@font-face{font-family:"a>b"}' });
        const { status, stderr } = spawnSync(parser, ['--noout', '-'], { input: svg, encoding: 'utf8' });
        expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
      }
    },
  );
});

describe('toSvgInPage', () => {
  const svg = toSvgInPage(every, 'Every kind, for a "page"', 'f3');

  it('takes colours and line widths from the page it stands in, and holds none itself', () => {
    expect(svg).toContain('fill="var(--ice)" stroke="var(--ink)" stroke-width="calc(0.3px*var(--stroke))"');
    expect(svg).not.toMatch(/#[0-9a-f]{6}/);
  });

  it('has no style attribute, which a strict content policy would refuse', () => {
    expect(svg).not.toContain('style=');
  });

  it('names patterns and gradients after the place that it has on the page', () => {
    const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(ids.length).toBeGreaterThan(1);
    for (const id of ids) expect(id).toMatch(/^f3-/);
    expect(svg).toContain('fill="url(#f3-lit-2-9)"');
  });

  it('says what is read aloud', () => {
    expect(svg).toMatch(
      /^<svg role="img" aria-label="Every kind, for a &quot;page&quot;" viewBox="0 0 80 90">/,
    );
  });
});
