import { expect, it } from 'vitest';
import { createGroups } from './group.ts';

it('createGroups runs one group at a time; what comes meanwhile forms the next, at most so many', async () => {
  const groups: number[][] = [];
  let running = 0;
  let free: () => void = () => undefined;
  const push = createGroups<number>(async (group) => {
    running += 1;
    expect(running).toBe(1);
    groups.push([...group]);
    await new Promise<void>((resolve) => {
      free = resolve;
    });
    running -= 1;
  }, 3);
  const turn = () => new Promise((resolve) => setTimeout(resolve, 0));
  push(1);
  push(2);
  await turn();
  for (const job of [3, 4, 5, 6]) push(job);
  await turn();
  expect(groups).toEqual([[1, 2]]);
  for (let round = 0; round < 3; round += 1) {
    free();
    await turn();
  }
  expect(groups).toEqual([[1, 2], [3, 4, 5], [6]]);
  push(7);
  await turn();
  expect(groups.at(-1)).toEqual([7]);
  free();
});
