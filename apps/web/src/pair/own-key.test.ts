import { describe, expect, it } from 'vitest';
import type { Own } from './gate.ts';
import { startOwnKey } from './own-key.ts';

const own: Own = {
  isHere: false,
  name: 'tablet 3',
  isPaired: true,
  isRevoked: false,
  publicKey: null,
  challenge: 'asked of tablet 3',
};
const signer = { key: 'its key', sign: async (text: string) => `signed ${text}` };

/** A camp computer that answers so, and what it was told. */
function camp(answers: Partial<Own>, isAway = () => false) {
  const told: string[] = [];
  let opened = 0;
  const tell = startOwnKey(
    async () => {
      opened += 1;
      return { signer };
    },
    {
      askOwn: async () => {
        if (isAway()) throw new Error('away');
        return { ...own, ...answers };
      },
      tellKey: async ({ key }, challenge) => void told.push(`${key}: ${challenge}`),
    },
  );
  return { tell, told, opened: () => opened };
}

describe('startOwnKey', () => {
  it('a device that told no key tells it, once', async () => {
    const { tell, told } = camp({});
    await tell();
    await tell();
    expect(told).toEqual(['its key: asked of tablet 3']);
  });

  it('another key than the listed one is told too: the camp computer shows it to people', async () => {
    const { tell, told } = camp({ publicKey: 'another key' });
    await tell();
    expect(told).toHaveLength(1);
  });

  it('says nothing where its key is known, and makes none for a device that is not paired', async () => {
    const known = camp({ publicKey: 'its key' });
    await known.tell();
    const stranger = camp({ isPaired: false, challenge: null });
    await stranger.tell();
    const here = camp({ isHere: true, isPaired: false, challenge: null });
    await here.tell();
    expect([known.told, stranger.told, here.told]).toEqual([[], [], []]);
    expect([stranger.opened(), here.opened()]).toEqual([0, 0]);
  });

  it('tries again after the camp computer was away', async () => {
    let isAway = true;
    const { tell, told } = camp({}, () => isAway);
    await tell();
    isAway = false;
    await tell();
    expect(told).toHaveLength(1);
  });
});
