import { describe, expect, it } from 'vitest';
import { type CampAnswer, type CampPins, campPins } from './camp-pins.ts';
import { startPins } from './pins.ts';
import { storageHere } from './storage.suite.ts';
import { hasVerifier } from './verifier.ts';

const setAt = '2031-01-17T09:40:00.000Z';
const derive = async (pin: string, salt: string) => `${pin} with ${salt}`;

/** A camp computer that can be switched off. */
function camp() {
  const state = {
    isUp: true,
    lines: new Map([['ev', { pin: '2718', setAt }]]),
    known: new Set(['ev', 'kt']),
    sent: 0,
  };
  const up = () => {
    if (!state.isUp) throw new TypeError('Failed to fetch');
  };
  const at: CampPins = {
    async list() {
      up();
      return [...state.lines].map(([person, line]) => ({ person, setAt: line.setAt }));
    },
    async check(person, pin) {
      up();
      const line = state.lines.get(person);
      return line?.pin === pin ? { is: 'right', setAt: line.setAt } : { is: 'wrong' };
    },
    async choose(person, pin): Promise<CampAnswer> {
      up();
      if (!state.known.has(person)) return { is: 'refused', says: 'Who? Wait.', isUnknown: true };
      if (state.lines.has(person)) return { is: 'refused', says: 'One already.', isUnknown: false };
      state.lines.set(person, { pin, setAt });
      return { is: 'right', setAt };
    },
    reset: async () => undefined,
  };
  const pins = startPins({
    campaign: 'saddle',
    camp: at,
    derive,
    now: () => 0,
    send() {
      state.sent += 1;
      if (state.sent === 2) state.known.add('mb');
    },
  });
  return { state, pins };
}

const settled = () => new Promise((resolve) => setTimeout(resolve));

describe('how a PIN is checked', () => {
  storageHere();

  it('by the camp computer; afterwards by the tablet while that is away', async () => {
    const { state, pins } = camp();
    expect(await pins.ground('ev')).toBe('camp');
    expect(await pins.give('ev', '8182', 'camp')).toEqual({ is: 'wrong' });
    expect(hasVerifier('saddle', 'ev')).toBe(false);
    expect(await pins.give('ev', '2718', 'camp')).toMatchObject({ is: 'right' });
    await settled();
    state.isUp = false;
    expect(await pins.ground('ev')).toBe('here');
    expect(await pins.give('ev', '8182', 'here')).toEqual({ is: 'wrong' });
    expect(await pins.give('ev', '2718', 'here')).toEqual({ is: 'right' });
    expect(await pins.ground('kt')).toBe('nowhere');
    expect(await pins.give('kt', '2718', 'camp')).toEqual({ is: 'nowhere' });
    expect(await pins.choose('kt', '31415')).toEqual({ is: 'nowhere' });
  });

  it('a camp computer that goes away in between leaves it to the tablet', async () => {
    const { state, pins } = camp();
    await pins.give('ev', '2718', 'camp');
    await settled();
    state.isUp = false;
    expect(await pins.give('ev', '2718', 'camp')).toEqual({ is: 'right' });
  });

  it('what the tablet keeps of a PIN that was reset or chosen anew is dropped when it hears of it', async () => {
    const { state, pins } = camp();
    for (const next of [null, { pin: '8281', setAt: '2031-01-18T07:00:00.000Z' }]) {
      state.lines.set('ev', { pin: '2718', setAt });
      await pins.give('ev', '2718', 'camp');
      await settled();
      expect(hasVerifier('saddle', 'ev')).toBe(true);
      if (next === null) state.lines.delete('ev');
      else state.lines.set('ev', next);
      expect(await pins.ground('ev')).toBe(next === null ? 'choose' : 'camp');
      expect(hasVerifier('saddle', 'ev')).toBe(false);
    }
  });

  it('somebody new is brought to the camp computer before their PIN is', async () => {
    const { state, pins } = camp();
    expect(await pins.ground('mb')).toBe('choose');
    expect(await pins.choose('mb', '16180')).toMatchObject({ is: 'right' });
    expect(state.sent).toBe(2);
    expect(await pins.choose('mb', '16181')).toEqual({
      is: 'refused',
      says: 'One already.',
      isUnknown: false,
    });
  });
});

describe('what the camp computer answers', () => {
  const answers = (status: number, body: unknown, headers: Record<string, string> = {}) =>
    campPins('saddle', async () => new Response(JSON.stringify(body), { status, headers }));
  const words = { what: 'So it is', where: 'person ev', mend: 'Do this.' };

  it.each([
    [200, { setAt }, {}, { is: 'right', setAt }],
    [201, { setAt }, {}, { is: 'right', setAt }],
    [403, words, {}, { is: 'wrong' }],
    [429, words, { 'retry-after': '47' }, { is: 'wait', seconds: 47 }],
    [404, words, {}, { is: 'refused', says: 'So it is. Do this.', isUnknown: true }],
    [409, words, {}, { is: 'refused', says: 'So it is. Do this.', isUnknown: false }],
    [503, words, {}, { is: 'refused', says: 'So it is. Do this.', isUnknown: false }],
  ])('%i is read', async (status, body, headers, wanted) => {
    expect(await answers(status, body, headers as Record<string, string>).check('ev', '2718')).toEqual(
      wanted,
    );
  });

  it.each([
    [200, {}],
    [401, words],
  ])('%i of somebody else is no answer', async (status, body) => {
    await expect(answers(status, body).check('ev', '2718')).rejects.toThrow();
  });

  it('a list that is none is no answer', async () => {
    await expect(answers(200, { pins: [] }).list()).rejects.toThrow();
    await expect(answers(503, []).list()).rejects.toThrow();
  });
});
