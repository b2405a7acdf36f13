import { describe, expect, it } from 'vitest';
import { opened } from './device.suite.ts';
import { nameSentence } from './frozen-names.ts';
import { sayEnglish } from './texts/say-english.ts';

describe('nameSentence', () => {
  it('gives a catalogue the English that names of zeros and soundings hold in the view', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '34' }, hole);
    phone.log('sounding', { afterRun: run, depth: '29 m' }, hole);
    const view = phone.book.holeView(hole)!;
    const { zeros, soundings } = view;
    expect(nameSentence(zeros[0]!)).toEqual({ key: 'name.zero', values: { number: '1' } });
    expect(nameSentence(soundings[0]!)).toEqual({ key: 'name.sounding', values: { run: 'B-R034' } });
    for (const thing of [...zeros, ...soundings]) expect(sayEnglish(nameSentence(thing))).toBe(thing.name);
  });

  it('follows to what is called by a zero, and leaves every other name as it is', () => {
    const { phone, hole } = opened('phone');
    const zero = phone.book.holeView(hole)!.zeros[0]!.id;
    phone.log('zero check', { zero, height: '2 cm' }, hole);
    phone.log('pit', { name: 'Zero 1' });
    const view = phone.book.view();
    expect(nameSentence(view.holes[0]!.others['zero check']![0]!).key).toBe('name.zero');
    expect(nameSentence(view.others.pit![0]!)).toEqual({ key: 'as.it.is', values: { text: 'Zero 1' } });
  });
});
