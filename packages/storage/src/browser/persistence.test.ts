import { afterEach, expect, it, vi } from 'vitest';
import { askPersistence } from './persistence.ts';

afterEach(() => {
  vi.unstubAllGlobals();
});

it.each([
  ['promised', { persisted: async () => true, persist: async () => false }],
  ['promised', { persisted: async () => false, persist: async () => true }],
  ['refused', { persisted: async () => false, persist: async () => false }],
  ['refused', { persisted: () => Promise.reject(new Error('no')), persist: async () => true }],
  ['absent', undefined],
])('askPersistence says "%s"', async (answer, storage) => {
  vi.stubGlobal('navigator', { storage });
  expect(await askPersistence()).toBe(answer);
});
