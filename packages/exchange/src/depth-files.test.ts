import { describe, expect, it } from 'vitest';
import { readDepthFiles } from './depth-files.ts';

const file = (name: string, text: string) => ({ name, bytes: new TextEncoder().encode(text) });

const runs = 'run,depth_from_m,depth_to_m\n1,0.00,0.98\n2,0.98,1.95\n';
const pieces =
  'run,piece,length_m,top_break,loss_m\n1,1,0.952,unsure,\n2,1,0.531,fits,\n2,2,0.428,loss,0.01\n';
const soundings = 'after_run,hole_depth_m,sd_m\n2,1.93,0.02\n';

const read = (r = runs, p = pieces, s?: string) =>
  readDepthFiles({
    runs: file('runs.csv', r),
    pieces: file('pieces.csv', p),
    ...(s !== undefined && { soundings: file('soundings.csv', s) }),
  });

describe('readDepthFiles', () => {
  it('reads the three tables into metres', () => {
    const { readings } = read(runs, pieces, soundings);
    expect(readings.runs).toEqual([
      { id: '1', from: 0, to: 0.98 },
      { id: '2', from: 0.98, to: 1.95 },
    ]);
    expect(readings.pieces[2]).toEqual({ id: '2-2', run: '2', length: 0.428, topBreak: 'loss', loss: 0.01 });
    expect(readings.soundings).toMatchObject([{ afterRun: '2', depth: 1.93, sd: 0.02 }]);
  });

  it('reads semicolons, decimal commas, other units and old-Macintosh line ends as the same readings', () => {
    const other = read(
      'Run;Depth from [cm];Depth to [cm]\r1;0,0;98,0\r2;98,0;195,0\r',
      'run\tpiece\tlength_cm\tTop break\tloss (mm)\n1\t1\t95,2\tUnsure\t\n2\t1\t53,1\tfits\t\n2\t2\t42,8\tloss\t10\n',
    );
    expect(other.readings).toEqual(read().readings);
    expect(other.headers).toMatchObject({ to: 'Depth to [cm]', length: 'length_cm', loss: 'loss (mm)' });
  });

  it('keeps names as written: run 007 of the pieces is run 7 of the runs', () => {
    const { pieceNames, written } = read(
      'run,depth_from_m,depth_to_m\n7,0.00,0.98\n',
      'run,piece,length_m,top_break\n007,1a,0.5,fits\n',
    );
    expect(pieceNames).toEqual([{ run: '007', piece: '1a' }]);
    expect([...written.piece.values()]).toEqual(['007-1a']);
  });

  it('puts runs and pieces in the order of their numbers', () => {
    const shuffled = read(
      'run,depth_from_m,depth_to_m\n10,1.95,2.9\n9,0.98,1.95\n',
      'run,piece,length_m,top_break\n10,1,0.9,fits\n9,10,0.2,fits\n9,2,0.7,fits\n',
    );
    expect(shuffled.readings.runs.map(({ id }) => id)).toEqual(['9', '10']);
    expect(shuffled.readings.pieces.map(({ id }) => id)).toEqual(['9-2', '9-10', '10-1']);
  });

  it('takes empty depths and lengths as not read, and says so of a loss that is not used', () => {
    const { readings, remarks } = read(
      'run,depth_from_m,depth_to_m\n1,,0.98\n2,0.98,\n',
      'run,piece,length_m,top_break,loss_m\n1,1,,fits,0.02\n',
    );
    expect(readings.runs).toEqual([
      { id: '1', to: 0.98 },
      { id: '2', from: 0.98 },
    ]);
    expect(readings.pieces).toEqual([{ id: '1-1', run: '1', topBreak: 'fits' }]);
    expect(remarks).toEqual(['pieces.csv, line 2: loss_m is not used, since top_break is not "loss".']);
  });

  it.each([
    ['run,from\n1,0\n', pieces, 'runs.csv, line 1: there is no column "depth_to_m"'],
    [
      'run,depth_from_m,depth_to_m\n1,0,abc\n',
      pieces,
      'runs.csv, line 2, column 3 (depth_to_m): "abc" is not a number',
    ],
    [
      'run,depth_from_m,depth_to_m\n1,0,1\n1,1,2\n',
      pieces,
      'runs.csv, line 3, column 1 (run): run 1 is there already, in line 2',
    ],
    ['run,depth_from_m,depth_to_m\n1,0,-1\n', pieces, 'the depth -1 is negative'],
    ['run,depth_from_m,depth_to_m\n', pieces, 'there are no runs'],
    ['run,depth_from_K,depth_to_m\n1,0,1\n', pieces, 'no column "depth_from_m"'],
    ['run,Depth from [kg],depth_to_m\n1,0,1\n', pieces, 'the unit "kg" is not known for a length'],
    [
      runs,
      'run,piece,length_m,top_break\n3,1,0.5,fits\n',
      'pieces.csv, line 2, column 1 (run): run 3 is not in runs.csv',
    ],
    [runs, 'run,piece,length_m,top_break\n1,1,0,fits\n', 'a length of 0 is not possible'],
    [runs, 'run,piece,length_m,top_break\n1,1,0.5,snapped\n', '"snapped" is no kind of break'],
    [
      runs,
      'run,piece,length_m,top_break\n1,1,0.5,fits\n1,1,0.4,fits\n',
      'piece 1-1 is there already, in line 2',
    ],
    [runs, 'run,piece,length_m,top_break\n1,1,50 cm,fits\n', 'Write the unit in the header'],
  ])('refuses %j with file, line, column and mend', (r, p, words) => {
    expect(() => read(r, p)).toThrow(words);
  });

  it('refuses a sounding without its standard deviation', () => {
    expect(() => read(runs, pieces, 'after_run,hole_depth_m,sd_m\n2,1.93,\n')).toThrow(
      'soundings.csv, line 2, column 3 (sd_m): a sounding needs its standard deviation',
    );
  });
});
