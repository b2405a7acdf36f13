import { describe, expect, it } from 'vitest';
import { beginCampaign, firnbook, inFolder } from '../try.suite.ts';

/** The invented campaign with KM, who began it, and HN. */
async function campIn(folder: string) {
  const where = ['--campaign', 'Ceredin Saddle', '--data', folder];
  const speak =
    (initials: string) =>
    (...words: readonly string[]) =>
      firnbook(...words, ...where, '--initials', initials);
  await beginCampaign(folder);
  const km = speak('KM');
  await km('log', 'person', 'initials=HN');
  return { where, km, hn: speak('HN'), people: () => firnbook('people', '--data', folder) };
}

describe('firnbook people', () => {
  it('says that everybody may do everything where nothing is said of rights', () =>
    inFolder(async (folder) => {
      const { people } = await campIn(folder);
      const { code, out } = await people();
      expect(code).toBe(0);
      expect(out).toBe(
        'Ceredin Saddle: everybody may do everything; a PIN is not asked.\n  KM: log, plan, sign-off\n  HN: log, plan, sign-off\n',
      );
    }));

  it('gives rights by name and takes them; who lacks one is told who has it', () =>
    inFolder(async (folder) => {
      const { km, hn, people } = await campIn(folder);
      expect((await km('people', 'by-name')).out).toContain('rights are by name');
      expect((await people()).out).toContain('  KM: log, plan, sign-off\n  HN: log\n');
      const refused = await hn('people', 'give', 'HN', 'plan');
      expect(refused.code).toBe(2);
      expect(refused.err).toContain('HN has no right to sign off here. These have it: KM.');
      expect((await hn('log', 'zero', 'surface=board', '--hole', 'B')).err).toContain(
        'no right to change a plan',
      );
      await km('people', 'give', 'HN', 'plan');
      expect((await hn('log', 'zero', 'surface=board', '--hole', 'B')).code).toBe(0);
      await km('people', 'give', 'HN', 'sign-off');
      expect((await hn('people', 'take', 'KM', 'sign-off', '--reason', 'gone home')).code).toBe(0);
      const last = await hn('people', 'take', 'HN', 'sign-off');
      expect(last.err).toContain('HN is the last one with the right to sign off');
      const json = JSON.parse((await firnbook('people', '--json', '--data', folder)).out);
      expect(json).toEqual({
        rights: 'by name',
        pin: false,
        people: [
          { initials: 'KM', log: true, plan: true, signOff: false },
          { initials: 'HN', log: true, plan: true, signOff: true },
        ],
        conflicts: [],
      });
      await hn('people', 'everybody', '--reason', 'two are left');
      expect((await people()).out).toContain('everybody may do everything');
    }));

  it('says whether a PIN is asked, and who has one', () =>
    inFolder(async (folder) => {
      const { km, people } = await campIn(folder);
      expect((await km('people', 'pin', 'asked')).out).toContain('a PIN is asked');
      expect((await people()).out).toContain('KM: log, plan, sign-off; has no PIN yet');
      expect((await km('people', 'pin', 'maybe')).code).toBe(2);
    }));

  it('refuses a right that there is not, and a person who is not there', () =>
    inFolder(async (folder) => {
      const { km } = await campIn(folder);
      expect((await km('people', 'give', 'HN', 'cook')).err).toContain('Say one of: log, plan, sign-off.');
      expect((await km('people', 'give', 'XX', 'log')).err).toContain('nobody in this campaign');
      expect((await km('people', 'let-stand', 'HN')).err).toContain('HN wrote nothing without the right');
    }));

  it('J3: lets stand what was written after a right was taken away', () =>
    inFolder(async (folder) => {
      const { km, people, where } = await campIn(folder);
      await km('people', 'by-name');
      await km('people', 'take', 'HN', 'log', '--reason', 'on leave');
      // Written without deciding here, as a tablet does that has not heard of it.
      const { openDesk, contextOf } = await import('../desk.ts');
      const desk = await openDesk(folder);
      try {
        const opened = await desk.open((await desk.campaigns())[0]!);
        const hn = opened.book.view().people.find(({ name }) => name === 'HN')!;
        const { newId, observedAt } = contextOf(hn.id);
        const readings = { wind: '4 m/s' };
        const draft = { kind: 'weather.logged', version: 1, observedAt, by: hn.id, body: { readings } };
        await opened.write([{ id: newId(), ...draft }]);
      } finally {
        await desk.close();
      }
      expect((await people()).out).toMatch(
        /Conflict: HN wrote 1 entry, on .*: KM had taken the right to log away/,
      );
      const settled = await firnbook('people', 'let-stand', 'HN', ...where, '--initials', 'KM');
      expect(settled.out).toBe('1 entry of HN let stand.\n');
      expect((await people()).out).not.toContain('Conflict');
    }));
});
