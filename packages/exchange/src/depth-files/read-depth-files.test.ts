import { describe, expect, it } from 'vitest';
import { readDepthFiles } from './read-depth-files.ts';

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
    expect(remarks).toEqual([
      'pieces.csv, line 2: loss_m is not used, since top_break is not "loss" or "ground".',
    ]);
  });

  it('reads what else a crew knows: stubs, barrels, kerfs, crumbs, scratches, tray tapes, kinds of ice', () => {
    const { readings } = read(
      'run,depth_from_m,depth_to_m,stub_cm,barrel_m,catcher_height_mm,counter,zero,hours\n1,0,0.98,8,1.15,38,zeroed,board,0\n2,0.98,1.95,,,,not zeroed,,1.5\n',
      [
        'run,piece,length_m,top_break,kerf_mm,ice,order,temperature_c,judged_length_m,catcher_mark_mm,catcher_run,tray_top_cm,tray_bottom_cm',
        '1,1,0.952,unsure,,,,-14,,,,,',
        '2,1,,sawn,2,crumbled,,,0.41,12,1,2.0,43.1',
        '2,2,0.428,handling,,chip plug,unsure,,,,,43.1,85.9',
        '',
      ].join('\n'),
    );
    expect(readings.runs).toEqual([
      {
        id: '1',
        from: 0,
        to: 0.98,
        barrelLength: 1.15,
        catcherHeight: 0.038,
        leftInHole: { value: 0.08, sd: 0.04 },
        zero: 'board',
        epoch: 0,
      },
      {
        id: '2',
        from: 0.98,
        to: 1.95,
        resets: false,
        epoch: 5_400_000,
        trayTape: {
          breaks: [
            { piece: '2-1', top: 0.02, bottom: 0.431 },
            { piece: '2-2', top: 0.431, bottom: 0.859 },
          ],
        },
      },
    ]);
    expect(readings.pieces).toEqual([
      { id: '1-1', run: '1', topBreak: 'unsure', length: 0.952, temperature: -14 },
      {
        id: '2-1',
        run: '2',
        topBreak: 'sawn',
        kerf: 0.002,
        crumbledMassLength: { value: 0.41, sd: 0.41 / 20 },
        catcherMark: { depth: 0.012, byRun: '1' },
      },
      { id: '2-2', run: '2', topBreak: 'handling', length: 0.428, outOfPlace: true, orderUnsure: true },
    ]);
  });

  it('reads cable checks, zeros and strain rates, and refuses depths of strain that do not go down', () => {
    const more = (strain: string) =>
      readDepthFiles({
        runs: file('runs.csv', runs),
        pieces: file('pieces.csv', pieces),
        cableChecks: file('checks.csv', 'after_run;mark_m;counter_m;sd_cm\n2;10;10,03;\n'),
        zeros: file('zeros.csv', 'zero,from_run,height_cm,sd_cm\nsnow,1,0,0.05\nboard,2,31.2,0.7\n'),
        strain: file('strain.csv', strain),
      }).readings;
    expect(more('depth_m,strain_rate_per_year\n0,-0.031\n10,-0.012\n')).toMatchObject({
      cableChecks: [{ afterRun: '2', mark: 10, counter: 10.03, sd: 0.01 }],
      zeros: [
        { id: 'snow', fromRun: '1', height: 0, sd: 0.0005 },
        { id: 'board', fromRun: '2', height: 0.312, sd: 0.007 },
      ],
      strain: { depth: [0, 10], rate: [-0.031, -0.012] },
    });
    expect(() => more('depth_m,strain_rate_per_year\n10,-0.03\n10,-0.01\n')).toThrow(
      'strain.csv, line 3, column 1 (depth_m): the depths do not go down',
    );
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
    [runs, 'run,piece,length_m,top_break,ice\n1,1,0.5,fits,snow\n', '"snow" is not one of its words'],
    [runs, 'run,piece,length_m,top_break,tray_top_m,tray_bottom_m\n1,1,0.5,fits,0.4,\n', 'Write both places'],
  ])('refuses %j with file, line, column and mend', (r, p, words) => {
    expect(() => read(r, p)).toThrow(words);
  });

  it('refuses a sounding without its standard deviation', () => {
    expect(() => read(runs, pieces, 'after_run,hole_depth_m,sd_m\n2,1.93,\n')).toThrow(
      'soundings.csv, line 2, column 3 (sd_m): a sounding needs its standard deviation',
    );
  });
});
