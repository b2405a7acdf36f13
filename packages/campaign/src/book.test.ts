import { describe, expect, it } from 'vitest';
import { opened } from './device.suite.ts';

describe('createBook', () => {
  it('add of a campaign, a hole, a run and a piece: view shows them by name', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0 m', to: '0,87 m', recovered: 'core' }, hole);
    phone.log('piece', { number: '1', length: '84.0', topBreak: 'Unsure' }, hole, run);
    const view = phone.book.view();
    expect(view).toMatchObject({ id: 'c', name: 'Ceredin Saddle', invented: true });
    expect(view.people.map((one) => one.name)).toEqual(['HN', 'KT']);
    const b = phone.book.holeView(hole)!;
    expect(view.holes).toEqual([b]);
    expect(b).toMatchObject({ letter: 'B', name: 'CER-B', notUnderstood: 0, waiting: 0, conflicts: [] });
    expect(b.zeros[0]!.readings.surface!.text).toBe('snow surface');
    expect(b.runs[0]).toMatchObject({ id: run, name: 'B-R001', number: 1, nothingRecovered: false });
    expect(b.runs[0]!.readings.to).toMatchObject({ text: '0,87 m', value: 0.87, struck: [], against: [] });
    expect(b.runs[0]!.pieces[0]).toMatchObject({ name: 'B-P001.1', run, number: 1 });
    expect(b.runs[0]!.pieces[0]!.readings.length).toMatchObject({ text: '84.0', value: 0.84 });
    expect(b.runs[0]!.pieces[0]!.readings.topBreak).toMatchObject({ text: 'unsure', value: null });
  });
});
