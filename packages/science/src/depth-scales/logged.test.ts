import { describe, expect, it } from 'vitest';
import { loggedGap, loggedLength } from './logged.ts';

describe('loggedGap', () => {
  it.each([
    ['lost ice that was estimated', { topBreak: 'loss', loss: 0.03, kerf: 0.002 }, 0.03],
    ['ground ice that was estimated', { topBreak: 'ground', loss: 0.01 }, 0.01],
    ['a saw cut', { topBreak: 'sawn', loss: 0.03, kerf: 0.002 }, 0.002],
    ['lost ice that nobody estimated', { topBreak: 'loss' }, 0],
    ['a break that fits', { topBreak: 'fits', loss: 0.03 }, 0],
  ] as const)('of %s', (_, piece, gap) => {
    expect(loggedGap({ id: 'p', run: 'r', ...piece })).toBe(gap);
  });
});

describe('loggedLength', () => {
  const run = { id: 'r', trayTape: { breaks: [{ piece: 'p', top: 0.12, bottom: 0.62 }] } };
  const piece = { id: 'p', run: 'r', topBreak: 'fits' } as const;

  it('is the piece measured alone, else along the tray tape, else from the mass of crumbled core', () => {
    const crumbled = { value: 0.44, sd: 0.02 };
    expect(loggedLength({ ...piece, length: 0.49, crumbledMassLength: crumbled }, run)).toBe(0.49);
    expect(loggedLength({ ...piece, crumbledMassLength: crumbled }, run)).toBe(0.5);
    expect(loggedLength({ ...piece, crumbledMassLength: crumbled }, { id: 'r' })).toBe(0.44);
    expect(loggedLength(piece, { id: 'r' })).toBeUndefined();
  });
});
