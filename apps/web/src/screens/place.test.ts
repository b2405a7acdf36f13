import { afterEach, describe, expect, it, vi } from 'vitest';
import { keepPlace, lastPlace, placeAddress, placeAt } from './place.ts';

afterEach(() => vi.unstubAllGlobals());

describe('places', () => {
  it('are what the last part of an address names; views of the core belong to the core', () => {
    expect(placeAt('today')).toEqual({ place: 'today', view: 'core' });
    expect(placeAt('zeros')).toEqual({ place: 'core', view: 'zeros' });
    expect(placeAt('nowhere')).toBeUndefined();
    expect(placeAt(undefined)).toBeUndefined();
    expect(placeAddress('c1', 'B', 'readings')).toBe('/c/c1/B/readings');
  });

  it('are remembered by the campaign, so that the phone in the drill tent opens where it was', () => {
    const stored = new Map<string, string>();
    vi.stubGlobal('localStorage', {
      getItem: (name: string) => stored.get(name) ?? null,
      setItem: (name: string, text: string) => stored.set(name, text),
    });
    expect(lastPlace('c1')).toBeNull();
    keepPlace('c1', 'B', 'drill');
    expect(lastPlace('c1')).toEqual({ letter: 'B', place: 'drill' });
    expect(lastPlace('c2')).toBeNull();
  });
});
