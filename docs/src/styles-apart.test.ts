import { describe, expect, it } from 'vitest';
import { stylesApart } from './styles-apart.ts';

describe('stylesApart', () => {
  it('puts equal styles into one class and leaves no style attribute', () => {
    const { pages, rules } = stylesApart(
      new Map([
        ['a.html', '<math class="big" style="display:block math;">x</math><mo style="padding:0">y</mo>'],
        ['b.html', '<mi style="padding:0"/><p>style="kept"</p>'],
      ]),
    );
    expect(pages.get('a.html')).toBe('<math class="s1 big">x</math><mo class="s2">y</mo>');
    expect(pages.get('b.html')).toBe('<mi class="s2"/><p>style="kept"</p>');
    expect(rules).toBe('.s1{display:block math;}\n.s2{padding:0}');
  });
});
