import { describe, expect, it } from 'vitest';
import { positionIn } from './reading.ts';

describe('positionIn', () => {
  // All of one invented place.
  it.each([
    '-77.8500, 38.0100',
    '-77.85,38.01',
    '\u221277.85 38.01',
    '-77,85; 38,01',
    '-77,85 38,01',
    '-77,85, 38,01',
    ' -77.85°,\u00a0+38.01° ',
  ])('"%s" is latitude, then longitude', (text) => {
    expect(positionIn(text)).toEqual({ latitude: -77.85, longitude: 38.01 });
  });

  it.each([
    '',
    '77',
    '77,8',
    '-77,38',
    '-77.85, 38.01, 2100',
    '90.1, 0',
    '-91, 10',
    '10, 180.01',
    '77.85 S, 38.01 E',
    '1e1, 20',
    'here, there',
  ])('"%s" is none', (text) => expect(positionIn(text)).toBeNull());

  it('takes the poles and both sides of the date line', () => {
    expect(positionIn('-90, 0')).toEqual({ latitude: -90, longitude: 0 });
    expect(positionIn('0; -180')).toEqual({ latitude: 0, longitude: -180 });
    expect(positionIn('0; 180')).toEqual({ latitude: 0, longitude: 180 });
  });
});
