import { describe, expect, it } from 'vitest';
import type { Own } from './gate.ts';
import { type Browser, lookAtGround, offerIn } from './ground.ts';

const stranger: Own = {
  isHere: false,
  name: null,
  isPaired: false,
  isRevoked: false,
  publicKey: null,
  challenge: null,
};
const registers = { register: async () => ({}) as ServiceWorkerRegistration };
const refuses = (error: Error) => ({
  register: async (): Promise<ServiceWorkerRegistration> => {
    throw error;
  },
});
const good: Browser = { isSecure: true, workers: registers, askOwn: async () => stranger };

describe('lookAtGround', () => {
  it('a device whose browser took the certificate may be paired; one that is paired hears its name', async () => {
    expect(await lookAtGround(good)).toEqual({ is: 'ready' });
    const paired: Own = { ...stranger, name: 'tablet 3', isPaired: true };
    expect(await lookAtGround({ ...good, askOwn: async () => paired })).toEqual({
      is: 'paired',
      name: 'tablet 3',
    });
  });

  it('past a certificate warning no secret is sent: the browser refuses the service worker', async () => {
    const workers = refuses(new DOMException('SSL certificate error', 'SecurityError'));
    expect(await lookAtGround({ ...good, workers })).toEqual({ is: 'certificate' });
    const paired: Own = { ...stranger, name: 'tablet 3', isPaired: true };
    expect(await lookAtGround({ ...good, workers, askOwn: async () => paired })).toEqual({
      is: 'certificate',
    });
  });

  it.each<[string, Partial<Browser>, string]>([
    [
      'the camp computer itself',
      { askOwn: async () => ({ ...stranger, isHere: true }), isSecure: false },
      'here',
    ],
    ['plain http', { isSecure: false, workers: null }, 'plain'],
    ['a private window', { workers: null }, 'private'],
    ['no answer', { askOwn: async () => Promise.reject(new TypeError('network')) }, 'away'],
    ['a script that does not come', { workers: refuses(new TypeError('network')) }, 'away'],
  ])('%s', async (_what, part, is) => {
    expect(await lookAtGround({ ...good, ...part })).toEqual({ is });
  });
});

describe('offerIn', () => {
  it('reads token and fingerprint of the code', () => {
    const token = 'o56dmfnovVrOS8yyXxwt3BdeL1g';
    expect(offerIn(`#token=${token}&authority=${'0A'.repeat(32)}`)).toEqual({
      token,
      fingerprint: Array<string>(32).fill('0A').join(':'),
    });
  });
  it.each(['', '#', '#token=', '#token=<script>&authority=12', '#authority=zz'])(
    'nothing in "%s"',
    (hash) => {
      expect(offerIn(hash)).toEqual({ token: null, fingerprint: null });
    },
  );
});
