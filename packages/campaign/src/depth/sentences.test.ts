import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { sayEnglish } from '../texts/say-english.ts';
import type { DepthView } from '../view.ts';
import { runSentences } from './sentences.ts';

const said = (
  pieces: readonly Record<string, string>[],
  run: Record<string, string> = {},
  sd = 0.03,
  tape?: string,
) => {
  const { phone, hole } = opened('phone');
  const first = phone.log('run', { number: '33', from: '27.60 m', to: '28.61 m' }, hole);
  phone.log('piece', { number: '1', length: '100 cm', topBreak: 'fits' }, hole, first);
  phone.log('run', { number: '34', from: '28.61 m', to: '29.48 m', recovered: 'core', ...run }, hole);
  const id = phone.book.holeView(hole)!.runs[1]!.id;
  for (const [index, piece] of pieces.entries())
    phone.log('piece', { number: `${index + 1}`, ...piece }, hole, id);
  if (tape !== undefined) phone.log('tray', { run: id, positions: tape }, hole);
  const view = phone.book.holeView(hole)!;
  const bottom = { value: 29.484, sd, min: 29.3, max: 29.6 };
  const depths = {
    runs: { [id]: { holeBottom: bottom, stub: bottom } },
    findings: [],
  } as unknown as DepthView;
  return runSentences(view, depths, view.runs[1]!).map(sayEnglish).join(' ');
};

describe('runSentences in English', () => {
  it('says what was drilled, what came up, what is left, how deep, and whether it fits', () => {
    expect(
      said([
        { length: '42 cm', topBreak: 'fits' },
        { length: '42,0 cm', topBreak: 'fits' },
      ]),
    ).toBe(
      'B-R034: 0.87 m drilled. 0.84 m of core in 2 pieces. 3 cm left in the hole, expect it next. Solved bottom 29.48 m ± 3 cm. Fits B-R033.',
    );
  });

  it('lost ice is not left in the hole; millimetres of uncertainty are said', () => {
    expect(said([{ length: '84 cm', topBreak: 'loss', loss: '3 cm' }], {}, 0.004)).toBe(
      'B-R034: 0.87 m drilled. 0.84 m of core in 1 piece. That closes. Solved bottom 29.48 m ± 0.4 cm. Ice is lost between it and B-R033.',
    );
  });

  it('nothing came up; more came up than was drilled; a counter that was not read', () => {
    expect(said([], { recovered: 'nothing' })).toContain(
      'Nothing came up: expect its ice with the next run.',
    );
    expect(said([{ length: '95 cm', topBreak: 'unsure' }])).toContain(
      '8 cm more than was drilled: it may have been left before. Solved bottom 29.48 m ± 3 cm. Unsure whether it fits B-R033.',
    );
    expect(said([{ length: '84 cm', topBreak: 'fits' }], { to: '' })).toContain(
      'B-R034 is logged. 0.84 m of core',
    );
  });

  it('snow off the wall is no core, wherever it is numbered; ice ground away is not left in the hole', () => {
    const says = said([
      { length: '11 cm', topBreak: 'loss', ice: 'wall snow' },
      { length: '84 cm', topBreak: 'ground', loss: '3 cm' },
    ]);
    expect(says).toContain('0.84 m of core in 1 piece. That closes.');
    expect(says).toContain('Its top and B-R033 have ground each other.');
  });

  it('a run read off its tray tape has the lengths of the tape; pieces without any are counted, not taken for nothing', () => {
    const pieces = [{ topBreak: 'fits' }, { topBreak: 'fits', ice: 'crumbled', mass: '900 g' }];
    expect(said(pieces)).toContain('0.00 m of core measured, 2 pieces have no length.');
    expect(said(pieces, {}, 0.03, '2,0 43.0 86.0 cm')).toContain(
      '0.84 m of core in 2 pieces. 3 cm left in the hole',
    );
    expect(said([{ length: '42 cm', topBreak: 'fits' }, { topBreak: 'fits' }])).toContain(
      '0.42 m of core measured, 1 piece has no length.',
    );
  });

  it('a run whose number another one bears too counts twice until that is settled, and says so', () => {
    const { phone, hole } = opened('phone');
    for (const to of ['0.87 m', '0.88 m']) phone.log('run', { number: '1', from: '0 m', to }, hole);
    const view = phone.book.holeView(hole)!;
    for (const run of view.runs)
      expect(runSentences(view, null, run).map(sayEnglish)).toContain(
        'Both runs B-R001 count in depths and totals until this is settled.',
      );
  });
});
