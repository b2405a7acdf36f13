import { describe, expect, it } from 'vitest';
import { beginCampaign, firnbook, inFolder } from '../try.suite.ts';

/** Invented: two holes and a pit. */
async function bookIn(folder: string) {
  const book = ['--data', folder];
  const where = ['--campaign', 'Ceredin Saddle', ...book];
  const speak = (...words: readonly string[]) => firnbook(...words, ...where, '--initials', 'KM');
  await beginCampaign(folder);
  await speak('log', 'hole', 'letter=C');
  await speak('log', 'pit', 'name=pit 1');
  return { speak, splices: (...words: readonly string[]) => firnbook('splices', ...where, ...words) };
}

describe('firnbook splices', () => {
  it('says that nothing is joined, and what there would be to join', () =>
    inFolder(async (folder) => {
      const { splices } = await bookIn(folder);
      expect((await splices()).out).toBe('Nothing is joined. Records: hole B, hole C, pit 1.\n');
    }));

  it('puts every record on the depths of one; a circle closes with its misclosure', () =>
    inFolder(async (folder) => {
      const { speak, splices } = await bookIn(folder);
      await speak('log', 'splice', 'of=B', 'on=pit 1', 'offset=-12 cm', 'sd=3 cm', 'method=levelled');
      await speak('log', 'splice', 'of=C', 'on=B', 'offset=20 cm', 'sd=3 cm');
      const open = (await splices('--reference', 'B')).out;
      expect(open).toContain('pit 1: its depths are 12.0 ± 3.0 cm more for the same ice');
      expect(open).toContain('hole C: its depths are 20.0 ± 3.0 cm more for the same ice');
      expect(open).toContain('hole B = pit 1 - 12.0 ± 3.0 cm, levelled, KM');
      expect(open).not.toContain('misclosure');
      // C on the pit by both splices: 8 cm; said to be 9 cm
      await speak('log', 'splice', 'of=C', 'on=pit 1', 'offset=9 cm', 'sd=3 cm');
      const round = (await splices()).out;
      expect(round).toMatch(/Round .*: misclosure [+-]1\.0 ± 5\.2 cm, it closes\./);
      await speak('log', 'splice', 'of=C', 'on=pit 1', 'offset=60 cm', 'sd=3 cm');
      expect((await splices()).out).toContain('it does not close: measure these splices again');
    }));
});
