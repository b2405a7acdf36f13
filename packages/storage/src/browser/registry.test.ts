import { afterEach, beforeEach, expect, it } from 'vitest';
import { lendIndexedDb } from './fake.suite.ts';
import { lendFiles } from './fake-files.suite.ts';
import { heldCampaigns, holdCampaign } from './registry.ts';

let giveBack: () => void;
beforeEach(() => {
  giveBack = lendIndexedDb();
});
afterEach(() => giveBack());

it('heldCampaigns lists each campaign once, the last opened first', async () => {
  const saddle = { id: 'cer-a', name: 'Ceredin Saddle', invented: true, openedAt: '2031-01-17T09:40:00Z' };
  const second = { id: 'cer-b', name: 'Ceredin North', invented: true, openedAt: '2031-01-18T09:40:00Z' };
  expect(await heldCampaigns()).toEqual([]);
  await holdCampaign(saddle);
  await holdCampaign(second);
  expect((await heldCampaigns()).map((campaign) => campaign.id)).toEqual(['cer-b', 'cer-a']);
  const again = { ...saddle, openedAt: '2031-01-19T09:40:00Z' };
  await holdCampaign(again);
  expect(await heldCampaigns()).toEqual([again, second]);
});

it('heldCampaigns brings back a list that the browser dropped, each campaign as it last stood', async () => {
  const { open } = lendFiles();
  const saddle = { id: 'cer-a', name: 'Ceredin', invented: true, openedAt: '2031-01-17T09:40:00Z' };
  const renamed = { ...saddle, name: 'Ceredin Saddle' };
  const second = { id: 'cer-b', name: 'Ceredin North', invented: true, openedAt: '2031-01-18T09:40:00Z' };
  for (const one of [saddle, second, renamed]) await holdCampaign(one, open);
  giveBack();
  giveBack = lendIndexedDb();
  expect(await heldCampaigns(open)).toEqual([second, renamed]);
  expect(await heldCampaigns()).toEqual([second, renamed]);
});
