import { depthReadings, type HoleView, type ReadingView, type ThingView } from '@firnbook/campaign';
import { describe, expect, it } from 'vitest';
import { readDepthFiles } from './depth-files/read-depth-files.ts';
import { writeReadings } from './readings-tables.ts';

const said = { entry: 'e', by: 'KM', at: '2026-06-14T10:00:00+05:45', struck: [], against: [] };

/** A thing as campaign's views have it; invented readings, numbers in metres and words. */
const thing = (id: string, kind: string, readings: Record<string, number | string>): ThingView => ({
  ...{ id, kind, name: id, aliases: [], by: 'KM', at: said.at, device: 'd', withdrawn: null, entries: ['e'] },
  readings: Object.fromEntries(
    Object.entries(readings).map(([field, value]): [string, ReadingView] => [
      field,
      { ...said, field, text: String(value), value: typeof value === 'number' ? value : null },
    ]),
  ),
});

const run = (
  id: string,
  number: number,
  readings: Record<string, number>,
  pieces: HoleView['runs'][number]['pieces'],
) => ({
  ...thing(id, 'run', { number, ...readings }),
  number,
  nothingRecovered: false,
  pieces,
});

const piece = (id: string, of: string, number: number, readings: Record<string, number | string>) => ({
  ...thing(id, 'piece', { number, ...readings }),
  run: of,
  number,
});

const hole: HoleView = {
  ...thing('h', 'hole', { letter: 'B' }),
  letter: 'B',
  zeros: [],
  runs: [
    run('x', 1, { from: 0, to: 0.98 }, [piece('p', 'x', 1, { length: 0.952, topBreak: 'unsure' })]),
    run('y', 2, { to: 1.95 }, [
      piece('q', 'y', 1, { length: 0.531, topBreak: 'fits' }),
      piece('r', 'y', 2, { topBreak: 'loss', loss: 0.01 }),
    ]),
  ],
  soundings: [thing('s', 'sounding', { afterRun: 'y', depth: 1.93, sd: 0.03 })],
  others: {},
  conflicts: [],
  notUnderstood: 0,
  waiting: 0,
};

describe('writeReadings', () => {
  it('writes tables that readDepthFiles reads back as the readings the solver is given', () => {
    const { runs, pieces, soundings } = writeReadings(hole, { others: {} });
    expect(runs).toBe('run,depth_from_m,depth_to_m\n1,0,0.98\n2,,1.95\n');
    expect(pieces).toBe(
      'run,piece,length_m,top_break,loss_m\n1,1,0.952,unsure,\n2,1,0.531,fits,\n2,2,,loss,0.01\n',
    );
    expect(soundings).toBe('after_run,hole_depth_m,sd_m\n2,1.93,0.03\n');
    const named = (name: string, text: string) => ({ name, bytes: new TextEncoder().encode(text) });
    const { readings } = readDepthFiles({
      runs: named('runs.csv', runs),
      pieces: named('pieces.csv', pieces),
      soundings: named('soundings.csv', soundings),
    });
    const bare = (all: typeof readings) =>
      [...all.runs, ...all.pieces, ...all.soundings].map((one) =>
        Object.fromEntries(Object.entries(one).filter(([name]) => !['id', 'run', 'afterRun'].includes(name))),
      );
    expect(bare(readings)).toEqual(bare(depthReadings(hole, { others: {} })));
  });
});
