import { expect, it } from 'vitest';
import { announce, listen } from './announce.ts';

it('listen hears what is announced of its campaign, until it stops', async () => {
  let heard = 0;
  await new Promise<void>((resolve) => {
    const stop = listen('cer-a', () => {
      heard += 1;
      stop();
      resolve();
    });
    announce('cer-b');
    announce('cer-a');
  });
  announce('cer-a');
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(heard).toBe(1);
});
