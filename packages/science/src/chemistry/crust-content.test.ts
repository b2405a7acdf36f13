import { describe, expect, it } from 'vitest';
import { crustContent, crustElements, crustRatio, elementOfOxide } from './crust-content.ts';

describe('upper continental crust', () => {
  // Rudnick & Gao 2003: oxides in percent (read), elements recomputed outside of the project
  it.each([
    ['Al', 'Al2O3', 15.4, 81505.6],
    ['Fe', 'FeO', 5.04, 39176.4],
    ['Ti', 'TiO2', 0.64, 3835.8],
    ['Na', 'Na2O', 3.27, 24258.9],
    ['K', 'K2O', 2.8, 23244.2],
    ['Si', 'SiO2', 66.6, 311312.9],
  ])('%s of %s, %d %%: %d mg/kg', (element, oxide, percent, content) => {
    expect(Math.abs(elementOfOxide(oxide, percent) / content - 1)).toBeLessThan(1e-5);
    expect(crustContent(element)).toBe(elementOfOxide(oxide, percent));
  });

  it.each([
    ['Fe', 0.480659],
    ['Ba', 0.007704995],
    ['Pb', 0.0002085747],
    ['Ca', 0.3147954],
    ['Sr', 0.003926112],
  ])('%s to aluminium: %d', (element, ratio) => {
    expect(Math.abs(crustRatio(element) / ratio - 1)).toBeLessThan(1e-5);
  });

  it('has no element from both an oxide and a trace, and says which it has', () => {
    expect(new Set(crustElements).size).toBe(crustElements.length);
    expect(() => crustContent('Au')).toThrow(/Au is not in the table; allowed: Si Al Fe/);
    expect(() => elementOfOxide('NaCl', 1)).toThrow(/not an element with oxygen/);
    expect(() => elementOfOxide('MgO', 101)).toThrow(/0 to 100 %/);
  });
});
