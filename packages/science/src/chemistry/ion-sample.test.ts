import { describe, expect, it } from 'vitest';
import { readIonSample } from './ion-sample.ts';

describe('ions of a sample in their own writing', () => {
  it('reads values, both writings of an error, limits, minus signs', () => {
    expect(readIonSample('Na 40.5(2), Ca 12 ± 0.6; MSA <0.5\nB(OH)4 -0.2')).toEqual([
      { ion: 'Na', value: 40.5, sd: 0.2, below: false },
      { ion: 'Ca', value: 12, sd: 0.6, below: false },
      { ion: 'MSA', value: 0.5, sd: 0, below: true },
      { ion: 'B(OH)4', value: -0.2, sd: 0, below: false },
    ]);
  });
  it.each(['Na', 'Na 4 0', 'Na=40', 'Na 40 ug/kg', '40 Na'])('refuses "%s"', (text) => {
    expect(() => readIonSample(text)).toThrow(/is not understood; allowed: ions such as Na 40\(2\)/);
  });
  it('turns equivalents and moles into mass, errors too', () => {
    const [calcium] = readIonSample('Ca 2.00(5)', 'ueq/kg');
    expect(calcium!.value).toBeCloseTo(40.078, 10);
    expect(calcium!.sd).toBeCloseTo(0.05 * 20.039, 10);
    expect(readIonSample('SO4 <3', 'umol/kg')[0]!.value).toBeCloseTo(288.168, 10);
  });
  it('refuses what is no ion', () => expect(() => readIonSample('Au 3')).toThrow(/Au is not known/));
});
