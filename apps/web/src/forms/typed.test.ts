import { describe, expect, it } from 'vitest';
import { press, readingOf, typedFrom, typedMetres, typedOf, unitTyped } from './typed.ts';

describe('typing a number', () => {
  it('press: takes digits and one comma or point, as pressed', () => {
    expect(typedFrom('42,6')).toBe('42,6');
    expect(typedFrom('29.45')).toBe('29.45');
    expect(typedFrom('1,2,3')).toBe('1,23');
  });
  it('press: a leading comma gets its zero, a leading zero gives way', () => {
    expect(typedFrom(',97')).toBe('0,97');
    expect(typedFrom('05')).toBe('5');
    expect(typedFrom('0,5')).toBe('0,5');
  });
  it('press: letters and signs change nothing, back takes one, length is limited', () => {
    expect(typedFrom('-4a2e')).toBe('42');
    expect(press('42', 'back')).toBe('4');
    expect(typedFrom('123456789012')).toBe('1234567890');
  });
  it('press: where the number may lie below zero, "-" turns the sign, before the digits or after them', () => {
    expect(typedFrom('-12,5', { signed: true })).toBe('-12,5');
    expect(press('12', '-', { signed: true })).toBe('-12');
    expect(press('-12', '-', { signed: true })).toBe('12');
    expect(press('-', ',', { signed: true })).toBe('-0,');
    expect(press('-0', '4', { signed: true })).toBe('-4');
  });
  it('readingOf: text with its unit, no comma at the end', () => {
    expect(readingOf({ text: '87,5', unit: 'cm' })).toBe('87,5 cm');
    expect(readingOf({ text: '29,', unit: 'm' })).toBe('29 m');
    expect(readingOf({ text: '35', unit: '' })).toBe('35');
  });
  it('typedMetres: reads comma and point, mm, cm and m alike', () => {
    expect(typedMetres({ text: '54,6', unit: 'cm' })).toBeCloseTo(0.546, 12);
    expect(typedMetres({ text: '98.2', unit: 'mm' })).toBeCloseTo(0.0982, 12);
    expect(typedMetres({ text: '29.45', unit: 'm' })).toBe(29.45);
    expect(typedMetres({ text: '', unit: 'm' })).toBeNull();
  });
  it('typedOf: a reading of the record comes back as typed; words leave the field empty', () => {
    expect(typedOf('87,5 cm', 'm')).toEqual({ text: '87,5', unit: 'cm' });
    expect(typedOf('28.51', 'm')).toEqual({ text: '28.51', unit: 'm' });
    expect(typedOf('-24,1 °C', '°C')).toEqual({ text: '-24,1', unit: '°C' });
    expect(typedOf('1200 kN', 'N')).toEqual({ text: '1200', unit: 'kN' });
    expect(typedOf('nothing', 'm')).toEqual({ text: '', unit: 'm' });
  });
  it('unitTyped: letters behind the digits pick the unit, as a scanner or a keyboard types them', () => {
    expect(unitTyped('c', ['m', 'cm'])).toBe('cm');
    expect(unitTyped('cm', ['m', 'cm'])).toBe('cm');
    expect(unitTyped('m', ['cm', 'm'])).toBe('m');
    expect(unitTyped('mm', ['cm', 'mm'])).toBe('mm');
    expect(unitTyped('k', ['g', 'kg'])).toBe('kg');
    expect(unitTyped('x', ['g', 'kg'])).toBeUndefined();
  });
});
