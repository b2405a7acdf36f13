import type { ThingView } from '@firnbook/campaign';
import { describe, expect, it } from 'vitest';
import { ownName, thingName } from './thing-name.ts';

const thing = (kind: string, name: string): ThingView => ({
  id: 'x',
  kind,
  name,
  aliases: [],
  by: '',
  at: '',
  device: '',
  readings: {},
  withdrawn: null,
  entries: [],
});

describe('how a thing is called', () => {
  it('a run, a piece and what its name already tells stand by themselves', () => {
    expect(thingName(thing('run', 'B-R034'))).toBe('B-R034');
    expect(thingName(thing('pit', 'Pit 3'))).toBe('Pit 3');
  });
  it('what is called after another thing says what it is', () => {
    expect(thingName(thing('cable check', 'B-R034'))).toBe('Cable check: B-R034');
    expect(thingName(thing('pit', 'by the tent'))).toBe('Pit: by the tent');
  });
  it('words of a list are the crew’s words, and a thing without a name is called by its kind', () => {
    expect(ownName(thing('contamination', 'drill oil'))).toBe('Oil of the drill');
    expect(thingName(thing('weather', ''))).toBe('Weather');
  });
});
