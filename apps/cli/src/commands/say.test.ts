import { describe, expect, it } from 'vitest';
import { beginCampaign, firnbook, inFolder } from '../try.suite.ts';

/** A new invented campaign in the folder, and a way to speak in it. */
async function campaign(folder: string) {
  const book = ['--data', folder];
  await beginCampaign(folder);
  const where = ['--campaign', 'Ceredin Saddle', ...book];
  return {
    where,
    speak: (...words: readonly string[]) => firnbook(...words, ...where, '--initials', 'KM'),
    show: (thing: string) => firnbook('show', thing, ...where),
  };
}

describe('firnbook log, add, correct, withdraw, restore, join, show', () => {
  it('logs a run and a piece, adds a mass, corrects a length, and shows what was struck with its reason', () =>
    inFolder(async (folder) => {
      const { speak, show } = await campaign(folder);
      expect((await speak('log', 'run', 'number=1', 'from=0', 'to=0,87 m', 'recovered=core')).code).toBe(0);
      const piece = await speak('log', 'piece', 'run=1', 'number=1', 'length=84,5 cm', 'topBreak=fits');
      expect(piece.out).toMatch(/^Logged, id [0-9a-f-]{36}\n$/);
      expect((await speak('add', 'B-P001.1', 'mass=3412 g', 'tare=412 g')).out).toBe('Added to B-P001.1.\n');
      const corrected = await speak('correct', 'B-P001.1', 'length=85,4 cm', '--reason', 'digits swapped');
      expect(corrected).toMatchObject({ code: 0, out: 'Corrected B-P001.1.\n' });
      const { out } = await show('b-p001.1');
      expect(out).toContain('length: 85,4 cm (KM, ');
      expect(out).toMatch(/struck: 84,5 cm \(KM, .*\), digits swapped/);
      expect(out).toContain('mass: 3412 g');
    }));

  it('asks what looks odd, with the likely slips, and takes the entry all the same', () =>
    inFolder(async (folder) => {
      const { speak } = await campaign(folder);
      await speak('log', 'run', 'number=1', 'from=0', 'to=0.87 m');
      const odd = await speak('log', 'run', 'number=2', 'from=8.70 m', 'to=9.60 m');
      expect(odd.code).toBe(0);
      expect(odd.out).toContain('Question: B-R001 ended at 0.87 m');
    }));

  it('withdraws and restores, by the id that it prints', () =>
    inFolder(async (folder) => {
      const { speak, show } = await campaign(folder);
      await speak('log', 'run', 'number=1', 'from=0', 'to=0.87 m');
      const gone = await speak('withdraw', 'B-R001', '--reason', 'only tried out');
      const id = /restore ([0-9a-f-]{36})/.exec(gone.out)![1]!;
      expect((await show(id)).out).toContain('Withdrawn by KM');
      expect((await speak('restore', id, '--reason', 'it was real')).out).toBe('B-R001 counts again.\n');
      expect((await show('B-R001')).out).not.toContain('Withdrawn');
    }));

  it('logs what belongs to the whole camp without a hole, and refuses what can not be read, with what to do', () =>
    inFolder(async (folder) => {
      const { speak } = await campaign(folder);
      expect((await speak('log', 'weather', 'temperature=-14 °C', 'sky=clear')).code).toBe(0);
      const bad = await speak('log', 'weather', 'temperature=14 furlongs');
      expect(bad.code).toBe(2);
      expect(bad.err).toContain('is not a unit of temperature');
      expect((await speak('log', 'snowman')).err).toContain('"snowman" is no kind of thing');
      expect((await speak('log', 'weather', 'cold')).err).toContain('Write each as field=value');
    }));

  it('names the people there are where nobody has these initials', () =>
    inFolder(async (folder) => {
      const { where } = await campaign(folder);
      const { err, code } = await firnbook('log', 'weather', 'sky=fog', ...where, '--initials', 'ZZ');
      expect(code).toBe(2);
      expect(err).toContain('There are: KM');
    }));

  it('joins two runs that were one', () =>
    inFolder(async (folder) => {
      const { speak, show } = await campaign(folder);
      const id = async (...words: readonly string[]) =>
        /id (\S+)/.exec((await speak('log', 'run', ...words)).out)![1]!;
      const one = await id('number=1', 'from=0', 'to=0.87 m');
      const other = await id('number=1', 'from=0', 'to=0.86 m');
      const joined = await speak('join', one, other, 'to=0.87 m', '--reason', 'the same run, logged twice');
      expect(joined).toMatchObject({ code: 0, out: 'B-R001 is now part of B-R001.\n' });
      expect((await show(other)).out).toContain(`id ${one}`);
    }));
});

describe('firnbook kinds', () => {
  it('lists every kind, and the fields of one with their units and words', async () => {
    expect((await firnbook('kinds')).out).toMatch(/^cable check +cable checks, of a hole$/m);
    const fields = (await firnbook('kinds', 'piece')).out;
    expect(fields).toMatch(/^length +length: a number with its unit, cm where none is typed$/m);
    expect(fields).toMatch(/^topBreak .*one of fits, ground, loss, unsure, sawn, handling \(needed\)$/m);
    expect(JSON.parse((await firnbook('kinds', 'run', '--json')).out)).toHaveLength(16);
    expect((await firnbook('kinds', 'yeti')).code).toBe(2);
  });
});
