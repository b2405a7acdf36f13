import { describe, expect, it } from 'vitest';
import { nothingAside } from './aside.ts';
import { type DepthAssumptions, defaultAssumptions } from './assumptions.ts';
import { makeChain } from './chain.ts';
import { leastSquares, type Row } from './dense.suite.ts';
import { Global } from './global.ts';
import { makeJob, model } from './model.ts';
import { order } from './order.ts';
import { positions } from './positions.ts';
import type { DepthReadings } from './readings.ts';
import { solveChain } from './solve-chain.ts';
import { readingVariance, tolerances } from './tolerances.ts';

/**
 * Invented: run 3 brings nothing and run 4 its ice with the marks of run 3's catchers, run 2 and run 5 have marks of their
 * own, run 6 lies on a tray tape, the counter is not zeroed from run 4 to 7, the zero is measured anew before run 5,
 * the cable was checked twice and its scale drifts, two tapes, every class of break, crumbled core.
 */
const readings: DepthReadings = {
  runs: [
    { id: '1', from: 0.02, to: 0.81 },
    { id: '2', from: 0.78, to: 1.66, catcherHeight: 0.03 },
    { id: '3', from: 1.66, to: 2.39, catcherHeight: 0.04 },
    { id: '4', from: 2.4, to: 3.31, resets: false },
    { id: '5', from: 3.37, to: 4.2, resets: false, catcherHeight: 0.035 },
    {
      id: '6',
      from: 4.2,
      to: 5.03,
      resets: false,
      trayTape: {
        tape: 'tray',
        breaks: [
          { piece: 'i', top: 0.012, bottom: 0.311 },
          { piece: 'j', top: 0.311, bottom: 0.528 },
          { piece: 'k', top: 0.54, bottom: 0.82 },
        ],
      },
    },
    { id: '7', from: 5.02, to: 5.9, resets: false, leftInHole: { value: 0.12, sd: 0.03 } },
  ],
  pieces: [
    { id: 'a', run: '1', length: 0.413, topBreak: 'fits' },
    { id: 'b', run: '1', length: 0.338, topBreak: 'ground' },
    { id: 'c', run: '2', length: 0.432, topBreak: 'fits', tape: 'steel' },
    {
      id: 'd',
      run: '2',
      length: 0.421,
      topBreak: 'sawn',
      kerf: 0.004,
      tape: 'steel',
      catcherMark: { depth: 0.411, byRun: '2' },
    },
    { id: 'e', run: '4', length: 0.702, topBreak: 'loss', loss: 0.03 },
    {
      id: 'f',
      run: '4',
      length: 0.915,
      topBreak: 'ground',
      catcherMark: { depth: 0.021, byRun: '3', sd: 0.008 },
    },
    { id: 'g', run: '5', length: 0.401, topBreak: 'handling' },
    {
      id: 'h',
      run: '5',
      crumbledMassLength: { value: 0.42, sd: 0.02 },
      topBreak: 'sawn',
      catcherMark: { depth: 0.4, byRun: '5' },
    },
    { id: 'i', run: '6', topBreak: 'fits' },
    { id: 'j', run: '6', topBreak: 'unsure' },
    { id: 'k', run: '6', topBreak: 'fits' },
    { id: 'l', run: '7', length: 0.77, topBreak: 'fits', lengths: [0.774] },
  ],
  soundings: [
    { id: 's1', afterRun: '2', depth: 1.62, sd: 0.03 },
    { id: 's2', afterRun: '7', depth: 5.85, sd: 0.04 },
  ],
  cableChecks: [
    { id: 'c1', afterRun: '2', counter: 1.51, mark: 1.5, sd: 0.004 },
    { id: 'c2', afterRun: '7', counter: 5.52, mark: 5.5, sd: 0.006 },
  ],
  zeros: [
    { id: 'z1', height: 0.2, sd: 0.003, fromRun: '1' },
    { id: 'z2', height: 0.24, sd: 0.004, fromRun: '5' },
    { id: 'z3', height: 0.21, sd: 0.005, fromRun: '7' },
  ],
};
const a: DepthAssumptions = { ...defaultAssumptions, cableScaleDriftSd: 5e-4 };

/** The same readings as general least squares: positions on the tray, heights, offsets are unknowns of their own. */
const dense = () => {
  const job = makeJob(order(readings), a, tolerances);
  const net = model(job, nothingAside);
  const { sites, layout } = net;
  const own = Math.sqrt(readingVariance(a));
  const nominal = readings.runs.map((run) => run.to as number);
  const rows = (at: (name: string) => number): Row[] => {
    const out: Row[] = [];
    const row = (value: number, sd: number, ...terms: (readonly [string, number])[]) =>
      out.push({ terms, value, sd });
    const site = (i: number, level: string, ...terms: (readonly [string, number])[]) => {
      const learned: [string, number][] = sites.level[i] >= 0 ? [[level, -sites.b[i]]] : [];
      row(sites.a[i], Math.sqrt(sites.v[i]), ...terms, ...learned);
    };
    row(0, a.cableScaleSd, ['cable', 1]);
    for (const tape of ['tape', 'steel', 'tray']) row(0, a.tapeScaleSd, [tape, 1]);
    row(a.fitGapMax / 2, tolerances.fitMeanShare * a.fitGapMax, ['fit', 1]);
    row(0, a.soundingTapeScaleSd, ['soundingTape', 1]);
    row(0, tolerances.lossFactorSd, ['loss', 1]);
    for (const level of ['fillMean', 'stubMean', 'gapMean', 'groundMean'])
      row(0, Math.log(a.meansKnownWithinFactor), [level, 1]);
    row(0, tolerances.surfaceSd, ['B0', 1]);
    row(0, tolerances.surfaceSd, ['D0', 1]);
    // the scale drifts from run to run, a step for every metre drilled
    for (let r = 1; r <= 7; r++) {
      const step = nominal[r - 1] - (r === 1 ? 0 : nominal[r - 2]);
      const above = r === 1 ? [] : [[`k${r - 1}`, -1] as const];
      row(0, a.cableScaleDriftSd * Math.sqrt(step), [`k${r}`, 1], ...above);
    }
    // the counter's offset while it is not zeroed: one walk, its knots at its ends
    row(0, a.tripOffsetSd, ['w4', 1]);
    row(0, a.offsetDriftSd * Math.sqrt(3), ['w7', 1], ['w4', -1]);
    for (const zero of readings.zeros ?? []) row(zero.height, zero.sd, [zero.id, 1]);
    const heightOf = (r: number): [string, number][] =>
      r < 5
        ? []
        : [
            [r < 7 ? 'z2' : 'z3', -1],
            ['z1', 1],
          ];
    let last = 'B0';
    const put = (r: number, i: number, end: number, side: string) => {
      site(i, side, [`D${r}`, 1], [`end${end}`, -1]);
    };
    for (const [i, run] of readings.runs.entries()) {
      const r = i + 1;
      const D = at(`D${r}`);
      const above = at(`D${r - 1}`);
      const scale = at('cable') + at(`k${r}`);
      const inScale = (depth: number): [string, number][] => [
        ['cable', depth],
        [`k${r}`, depth],
      ];
      const share = (r - 4) / 3;
      const walk: [string, number][] =
        run.resets === false
          ? [
              ['w4', 1 - share],
              ['w7', share],
            ]
          : [];
      row(
        0,
        run.resets === false
          ? Math.max(1e-5, a.offsetDriftSd * Math.sqrt(share * (1 - share) * 3))
          : a.tripOffsetSd,
        [`o${r}`, 1],
      );
      const offset: [string, number][] = [
        [`o${r}`, 1],
        ...walk,
        ...heightOf(r).map(([n, x]) => [n, -x] as [string, number]),
      ];
      row(
        (run.from as number) + above * scale,
        own,
        [`D${r - 1}`, 1 + scale],
        ...inScale(above),
        [`f${r}`, -1],
        ...offset,
      );
      row((run.to as number) + D * scale, own, [`D${r}`, 1 + scale], ...inScale(D), ...offset);
      site(net.rows + layout.counter[r] - 1, 'fillMean', [`f${r}`, 1]);
      row(0, a.runBiasSd, [`m${r}`, 1]);
      for (const [j, piece] of readings.pieces.entries()) {
        if (piece.run !== run.id) continue;
        const gap: (readonly [string, number])[] = [
          [`top${j}`, 1],
          [last, -1],
        ];
        const length: (readonly [string, number])[] = [
          [`bottom${j}`, 1],
          [`top${j}`, -1],
        ];
        const inSite = net.partSite[2 * j];
        if (inSite >= 0) site(inSite, piece.topBreak === 'ground' ? 'groundMean' : 'gapMean', ...gap);
        else if (piece.topBreak === 'fits')
          row(0, Math.sqrt(a.fitGapMax ** 2 / 12 - (tolerances.fitMeanShare * a.fitGapMax) ** 2), ...gap, [
            'fit',
            -1,
          ]);
        else if (piece.topBreak === 'sawn')
          row(piece.kerf ?? a.kerf, piece.kerf === undefined ? a.kerfSd : a.givenKerfSd, ...gap);
        else if (piece.topBreak === 'handling') row(0, 1e-4, ...gap);
        else {
          const loss = piece.loss as number;
          row(loss, a.lossSd + a.lossShareSd * loss, ...gap, ['loss', -loss]);
        }
        if (piece.crumbledMassLength !== undefined)
          row(piece.crumbledMassLength.value, piece.crumbledMassLength.sd, ...length);
        else if (piece.run === '6') {
          const seen = run.trayTape?.breaks.find((one) => one.piece === piece.id);
          const { top, bottom } = seen as NonNullable<typeof seen>;
          // a position has one error, whoever uses it
          row(0, 1e-5, ...length, [`p${top}`, 1], [`p${bottom}`, -1], ['tray', -(bottom - top)]);
          for (const position of j === 9 ? [bottom] : [top, bottom])
            row(position, a.traySd, [`p${position}`, 1]);
        } else {
          const tape = piece.tape ?? 'tape';
          const all = [piece.length as number, ...(piece.lengths ?? [])];
          const mean = all.reduce((x, y) => x + y, 0) / all.length;
          row(
            mean,
            a.lengthSdFirn / Math.sqrt(all.length),
            ...length,
            [`m${r}${j === 3 || j === 5 ? 'b' : ''}`, -1],
            [tape, -mean],
          );
        }
        const mark = piece.catcherMark;
        if (mark !== undefined) {
          const height = readings.runs[Number(mark.byRun) - 1].catcherHeight as number;
          row(mark.depth + height, mark.sd ?? a.catcherMarkSd, [`D${mark.byRun}`, 1], [`top${j}`, -1]);
        }
        last = `bottom${j}`;
      }
      if (run.id === '3') {
        // nothing came up: what is left is all above
        row(0, 1e-5, ['end3', 1], [last, -1]);
      } else row(0, 1e-5, [`end${r}`, 1], [last, -1]);
      put(r, layout.last[r] - 1, r, 'stubMean');
      if (run.leftInHole !== undefined)
        row(run.leftInHole.value, run.leftInHole.sd, [`D${r}`, 1], [`end${r}`, -1]);
    }
    // below a mark the run's bias is another one
    row(0, a.runBiasSd, ['m2b', 1]);
    row(0, a.runBiasSd, ['m4b', 1]);
    site(net.rows + layout.counter[8] - 1, 'fillMean', ['f8', 1]);
    row(1.62, 0.03, ['D2', 1], ['f3', -1], ['soundingTape', nominal[1]]);
    row(5.85, 0.04, ['D7', 1], ['f8', -1], ['z3', 1], ['z1', -1], ['soundingTape', nominal[6]]);
    for (const check of readings.cableChecks ?? []) {
      row(
        check.counter - check.mark,
        Math.sqrt(check.sd ** 2 + readingVariance(a) + a.tripOffsetSd ** 2),
        ['cable', check.mark],
        [`k${check.afterRun}`, check.mark],
      );
    }
    return out;
  };
  return { net, job, ...leastSquares(rows, 10) };
};

describe('every term of the chain against dense general least squares, sites left as they start', () => {
  const { net, value, sd } = dense();
  const chain = makeChain(net);
  for (let pass = 0; pass < 10; pass++) solveChain(chain);
  const k = net.globals;
  const spread = (column: number): number => {
    let variance = 0;
    for (let j = 0; j < k; j++) variance += chain.factor[column * k + j] ** 2;
    return Math.sqrt(variance);
  };

  it('has a row more for every catcher mark', () => {
    expect(net.rows).toBe(8 + 3);
  });
  it('hole bottoms and their spreads agree', () => {
    for (let r = 1; r <= 7; r++) {
      const row = net.layout.last[r];
      expect(Math.abs(chain.hole[row] - value(`D${r}`)), `hole ${r}`).toBeLessThan(1e-6);
      let variance = chain.cov[3 * row + 2];
      for (let j = 0; j < k; j++) variance += chain.pull[(2 * row + 1) * k + j] ** 2;
      expect(Math.sqrt(variance) / sd(`D${r}`), `hole ${r}`).toBeCloseTo(1, 3);
    }
  });
  it('tops and bottoms and their spreads agree', () => {
    const place = positions(chain);
    readings.pieces.forEach((piece, j) => {
      expect(Math.abs(place.top[j] - value(`top${j}`)), `top ${piece.id}`).toBeLessThan(1e-6);
      expect(Math.abs(place.bottom[j] - value(`bottom${j}`)), `bottom ${piece.id}`).toBeLessThan(1e-6);
      expect(place.topSd[j] / sd(`top${j}`), `top ${piece.id} sd`).toBeCloseTo(1, 3);
      expect(place.bottomSd[j] / sd(`bottom${j}`), `bottom ${piece.id} sd`).toBeCloseTo(1, 3);
    });
  });
  it('scales of cable and tapes, means of the classes and heights agree', () => {
    const { tapes, ground } = net.unknowns;
    for (const [name, column] of [
      ['cable', Global.cable],
      ['tape', tapes[0]],
      ['steel', tapes[1]],
      ['tray', tapes[2]],
      ['fit', Global.fit],
      ['loss', Global.loss],
      ['fillMean', Global.fill],
      ['stubMean', Global.stub],
      ['gapMean', Global.unsure],
      ['groundMean', ground],
    ] as const) {
      expect(chain.global[column], name).toBeCloseTo(value(name), 5);
      expect(spread(column) / sd(name), name).toBeCloseTo(1, 3);
    }
  });
});
