import { describe, expect, it } from 'vitest';
import { mayTryAgain, saidOf } from './trouble-said.ts';

const storeTrouble = (trouble: string) =>
  Object.assign(new Error('what, where'), { trouble, what: 'what', where: 'where', mend: 'mend' });

describe('words for what a store could not do', () => {
  it.each([
    ['disk full', 'trouble.full', false],
    ['unknown fate', 'trouble.again', true],
    ['closed', 'trouble.closed', false],
    ['newer version', 'trouble.newer', false],
  ])('%s', (trouble, key, again) => {
    expect(saidOf(storeTrouble(trouble))).toEqual({ key, values: {} });
    expect(mayTryAgain(storeTrouble(trouble))).toBe(again);
  });

  it('anything else is told as it was said, and not tried again by itself', () => {
    expect(saidOf(storeTrouble('refused'))).toEqual({
      key: 'trouble.store',
      values: { what: 'what, where' },
    });
    expect(saidOf('gone')).toEqual({ key: 'trouble.store', values: { what: 'gone' } });
    expect(mayTryAgain(new Error('gone'))).toBe(false);
  });
});
