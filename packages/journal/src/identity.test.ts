import { expect, it } from 'vitest';
import { canonical } from './canonical.ts';
import { mayGoOn, readIdentity } from './identity.ts';

const IDENTITY = { device: 'd', epoch: 'e', damage: ['h1'] };

it('readIdentity gives back what was noted', () => {
  expect(readIdentity(canonical(IDENTITY))).toEqual(IDENTITY);
});

it.each([
  null,
  '',
  'not json',
  'null',
  '[]',
  '{}',
  '{"device":1,"epoch":"e","damage":[]}',
  '{"device":"d","epoch":"e"}',
])('readIdentity(%j) is null: the store gets a new device', (text) => {
  expect(readIdentity(text)).toBeNull();
});

it('mayGoOn: not in another life of the store, and not beside damage that is new', () => {
  expect(mayGoOn(IDENTITY, 'e', [])).toBe(true);
  expect(mayGoOn(IDENTITY, 'e', ['h1'])).toBe(true);
  expect(mayGoOn(IDENTITY, 'e', ['h1', 'h2'])).toBe(false);
  expect(mayGoOn(IDENTITY, 'restored', [])).toBe(false);
});
