import { expect, it } from 'vitest';
import { readPeers, writePeers } from './peers.ts';

it('readPeers gives back what writePeers wrote', () => {
  const have = { d: [{ sequence: 3, hash: 'a'.repeat(64) }] };
  const peers = new Map([['camp', { epoch: 'e', have, clockOff: -7, at: 9 }]]);
  expect(readPeers(writePeers(peers))).toEqual(peers);
});

it.each([
  null,
  '',
  'null',
  '{"camp":null}',
  '{"camp":{"epoch":"e","have":{"d":1},"clockOff":1,"at":1}}',
  '{"camp":{}}',
])('readPeers(%j) knows no peer: ticks wait for the next exchange', (text) => {
  expect(readPeers(text).size).toBe(0);
});
