import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import type { DepthView } from '../view.ts';
import { say } from './english.ts';
import { runSentences } from './sentences.ts';

const said = (pieces: readonly Record<string, string>[], run: Record<string, string> = {}, sd = 0.03) => {
  const { phone, hole } = opened('phone');
  const first = phone.log('run', { number: '33', from: '27.60 m', to: '28.61 m' }, hole);
  phone.log('piece', { number: '1', length: '100 cm', topBreak: 'fits' }, hole, first);
  phone.log('run', { number: '34', from: '28.61 m', to: '29.48 m', recovered: 'core', ...run }, hole);
  const id = phone.book.holeView(hole)!.runs[1]!.id;
  for (const [index, piece] of pieces.entries())
    phone.log('piece', { number: `${index + 1}`, ...piece }, hole, id);
  const view = phone.book.holeView(hole)!;
  const bottom = { value: 29.484, sd, min: 29.3, max: 29.6 };
  const depths = {
    runs: { [id]: { holeBottom: bottom, stub: bottom } },
    findings: [],
  } as unknown as DepthView;
  return runSentences(view, depths, view.runs[1]!)
    .map((sentence) => say(sentence))
    .join(' ');
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
});
