import { describe, expect, it } from 'vitest';
import { cited, numberHtml, symbolHtml, unitHtml } from './words.ts';

describe('words of the lists', () => {
  it.each([
    [8.31446261815324, '8.31446261815324'],
    [-10160, '−10\u202f160'],
    [2.4e-24, '2.4\u00a0×\u00a010<sup>−24</sup>'],
    [6.02214076e23, '6.02214076\u00a0×\u00a010<sup>23</sup>'],
    [31557600, '31\u202f557\u202f600'],
    [Number.POSITIVE_INFINITY, 'no limit'],
  ])('%d is written %s', (value, written) => {
    expect(numberHtml(value)).toBe(written);
  });

  it('puts indices below', () => {
    expect(symbolHtml('ρ_i')).toBe('ρ<sub>i</sub>');
    expect(symbolHtml('k_{0}')).toBe('k<sub>0</sub>');
    expect(symbolHtml('T½')).toBe('T½');
  });

  it('names a pure number’s unit as 1', () => {
    expect([unitHtml('1'), unitHtml('J/mol/K')]).toEqual(['1', 'J/mol/K']);
  });

  it('links a doi and nothing else', () => {
    expect(cited('Yen 1981 <b>, doi:10.1000/182, table 3')).toBe(
      'Yen 1981 &lt;b&gt;, <a href="https://doi.org/10.1000/182" rel="noreferrer">doi:10.1000/182</a>, table 3',
    );
  });
});
