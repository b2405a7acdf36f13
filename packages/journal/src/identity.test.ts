import { expect, it } from 'vitest';
import { type Identity, mayGoOn, readIdentity, writeIdentity } from './identity.ts';

const IDENTITY: Identity = { device: 'd', epoch: 'e', damage: ['h1'], key: null };
const SIGNING: Identity = { ...IDENTITY, key: 'k1' };

it('readIdentity gives back what was noted', () => {
  expect(readIdentity(writeIdentity(IDENTITY))).toEqual(IDENTITY);
  expect(readIdentity(writeIdentity(SIGNING))).toEqual(SIGNING);
  // As 0.1.0 noted it.
  expect(readIdentity('{"damage":["h1"],"device":"d","epoch":"e"}')).toEqual(IDENTITY);
});

it('J9: release 0.1.0, which cannot sign, finds no name in the note of a device that does', () => {
  // What 0.1.0 asks of a note: a device and an epoch that are texts, and a list of damage.
  const found = JSON.parse(writeIdentity(SIGNING)) as Record<string, unknown>;
  expect([found.device, found.epoch, found.damage]).toEqual([undefined, undefined, undefined]);
  const plain = JSON.parse(writeIdentity(IDENTITY)) as Record<string, unknown>;
  expect([plain.device, plain.epoch, plain.damage]).toEqual(['d', 'e', ['h1']]);
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
  '{"signing":{"device":"d","epoch":"e","damage":[]}}',
])('readIdentity(%j) is null: the store gets a new device', (text) => {
  expect(readIdentity(text)).toBeNull();
});

it('mayGoOn: not in another life of the store, and not beside damage that is new', () => {
  expect(mayGoOn(IDENTITY, 'e', [], null)).toBe(true);
  expect(mayGoOn(IDENTITY, 'e', ['h1'], null)).toBe(true);
  expect(mayGoOn(IDENTITY, 'e', ['h1', 'h2'], null)).toBe(false);
  expect(mayGoOn(IDENTITY, 'restored', [], null)).toBe(false);
});

it('J9: mayGoOn: a name that has signed goes on with its key alone; one that has not may begin to', () => {
  expect(mayGoOn(SIGNING, 'e', [], 'k1')).toBe(true);
  expect(mayGoOn(SIGNING, 'e', [], 'k2')).toBe(false);
  expect(mayGoOn(SIGNING, 'e', [], null)).toBe(false);
  expect(mayGoOn(IDENTITY, 'e', [], 'k2')).toBe(true);
});
