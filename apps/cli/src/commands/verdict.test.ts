import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { firnbook, inFolder, put } from '../try.suite.ts';

/** Invented: runs of 90 cm that bring 89 cm each, `count` of them. */
const lines = (count: number, each: (run: number) => string) =>
  Array.from({ length: count }, (_, i) => each(i + 1)).join('\n');

const told = async (folder: string, count: number, wrong: number, ...more: readonly string[]) => {
  const to = (r: number) => (0.9 * r + (r === count - 1 ? wrong : 0)).toFixed(2);
  put(folder, {
    'runs.csv': `run,depth_from_m,depth_to_m\n${lines(count, (r) => `${r},${(0.9 * (r - 1)).toFixed(2)},${to(r)}`)}\n`,
    'pieces.csv': `run,piece,length_m,top_break,loss_m\n${lines(count, (r) => `${r},1,${r === count ? 0.88 : 0.89},fits,`)}\n`,
  });
  const at = (name: string) => join(folder, name);
  return firnbook(
    'depths',
    '--runs',
    at('runs.csv'),
    '--pieces',
    at('pieces.csv'),
    '--out',
    at('out'),
    '--verdict',
    ...more,
  );
};

describe('firnbook depths --verdict', () => {
  it('says what closes, the longest next run, and what check would help most', () =>
    inFolder(async (folder) => {
      const { code, out } = await told(folder, 100, 0, '--barrel', '1.00');
      expect(code).toBe(0);
      expect(out).toMatch(/^run 100 closes within \d+ cm: 0\.90 m drilled, 0\.88 m of core/m);
      expect(out).toMatch(
        /^Longest next run 0\.\d\d m: the barrel holds 1\.00 m, and up to \d+(\.\d)? cm may stand/m,
      );
      expect(out).toMatch(
        /^(A cable mark check at 89 m|A sounding by weighted tape now) would bring the depth error from \d+ cm to \d+(\.\d)? cm\.$/m,
      );
    }));

  it('sends people back to a reading that does not fit, while the core is on the bench', () =>
    inFolder(async (folder) => {
      const { out } = await told(folder, 40, 1);
      expect(out).toMatch(
        /^Look again at depth to of run 39: off by .* Most likely a slip of 1 m\. It may have been 35\.10 m\.$/m,
      );
      expect(out).not.toContain('Longest next run');
    }));

  it('refuses a barrel that is no length', () =>
    inFolder(async (folder) => {
      const { code, err } = await told(folder, 3, 0, '--barrel', 'long');
      expect(code).toBe(2);
      expect(err).toContain('--barrel: "long" is no length. Write metres');
    }));
});
