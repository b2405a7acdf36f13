import { describe, expect, it } from 'vitest';
import { nothingAside } from './aside.ts';
import { defaultAssumptions } from './assumptions.ts';
import { makeChain } from './chain.ts';
import { leastSquares, type Row } from './dense.suite.ts';
import { Global } from './global.ts';
import { makeJob, model } from './model.ts';
import { order } from './order.ts';
import { positions } from './positions.ts';
import type { DepthReadings } from './readings.ts';
import { solveChain } from './solve-chain.ts';
import { tolerances } from './tolerances.ts';

/** Invented: an empty run, a run without a counter reading, all classes of break, two soundings of one hole. */
const readings: DepthReadings = {
  runs: [
    { id: '1', from: 0.02, to: 0.81 },
    { id: '2', from: 0.78, to: 1.66 },
    { id: '3', from: 1.66, to: 2.39 },
    { id: '4', to: 3.31 },
    { id: '5', from: 3.27, to: 4.1 },
  ],
  pieces: [
    { id: 'a', run: '1', length: 0.413, topBreak: 'fits' },
    { id: 'b', run: '1', length: 0.338, topBreak: 'unsure' },
    { id: 'c', run: '2', length: 0.861, topBreak: 'fits' },
    { id: 'd', run: '4', length: 0.702, topBreak: 'loss', loss: 0.03 },
    { id: 'e', run: '4', length: 0.815, topBreak: 'unsure' },
    { id: 'f', run: '5', length: 0.401, topBreak: 'loss' },
    { id: 'g', run: '5', topBreak: 'fits' },
  ],
  soundings: [
    { id: 's1', afterRun: '2', depth: 1.62, sd: 0.03 },
    { id: 's2', afterRun: '2', depth: 1.66, sd: 0.05 },
    { id: 's3', afterRun: '5', depth: 4.02, sd: 0.04 },
  ],
};

/** The scale's drift has its equations in terms.test.ts. */
const steady = { ...defaultAssumptions, cableScaleDriftSd: 0 };

/**
 * General least squares of the same readings, written without the solver: every error and every gap is an unknown of
 * its own, the normal equations are dense, Gauss-Newton for the one product (scale times depth).
 */
const dense = (a = steady) => {
  const net = model(makeJob(order(readings), a, tolerances), nothingAside);
  const { sites } = net;
  const ends: string[] = [];
  const rows = (at: (name: string) => number): Row[] => {
    const out: Row[] = [];
    const scale = at('cable');
    const row = (value: number, sd: number, ...terms: [string, number][]) => out.push({ terms, value, sd });
    const site = (i: number, level: string, ...terms: [string, number][]) => {
      const learned: [string, number][] = sites.level[i] >= 0 ? [[level, -sites.b[i]]] : [];
      row(sites.a[i], Math.sqrt(sites.v[i]), ...terms, ...learned);
    };
    let last = 'B0';
    row(0, a.cableScaleSd, ['cable', 1]);
    row(0, a.tapeScaleSd, ['tape', 1]);
    row(0, a.soundingTapeScaleSd, ['soundingTape', 1]);
    row(a.fitGapMax / 2, tolerances.fitMeanShare * a.fitGapMax, ['fit', 1]);
    row(0, tolerances.lossFactorSd, ['loss', 1]);
    for (const level of ['fillMean', 'stubMean', 'gapMean'])
      row(0, Math.log(a.meansKnownWithinFactor), [level, 1]);
    row(0, tolerances.surfaceSd, ['B0', 1]);
    row(0, tolerances.surfaceSd, ['D0', 1]);
    readings.runs.forEach((run, i) => {
      const r = i + 1;
      const D = at(`D${r}`);
      const above = at(`D${r - 1}`);
      const sd = Math.sqrt(a.readingSd ** 2 + a.readingStep ** 2 / 12);
      row(0, a.tripOffsetSd, [`o${r}`, 1]);
      if (run.from !== undefined)
        row(
          run.from + above * scale,
          sd,
          [`D${r - 1}`, 1 + scale],
          ['cable', above],
          [`f${r}`, -1],
          [`o${r}`, 1],
        );
      if (run.to !== undefined) row(run.to + D * scale, sd, [`D${r}`, 1 + scale], ['cable', D], [`o${r}`, 1]);
      site(net.rows + r - 1, 'fillMean', [`f${r}`, 1]);
      row(0, a.runBiasSd, [`m${r}`, 1]);
      const own = readings.pieces
        .map((piece, j) => ({ piece, j }))
        .filter(({ piece }) => piece.run === run.id);
      for (const { piece, j } of own) {
        const gap: [string, number][] = [
          [`top${j}`, 1],
          [last, -1],
        ];
        const inSite = net.partSite[2 * j];
        if (inSite >= 0) site(inSite, 'gapMean', ...gap);
        else if (piece.topBreak === 'fits')
          row(0, Math.sqrt(a.fitGapMax ** 2 / 12 - (tolerances.fitMeanShare * a.fitGapMax) ** 2), ...gap, [
            'fit',
            -1,
          ]);
        else {
          const loss = piece.loss as number;
          row(loss, a.lossSd + a.lossShareSd * loss, ...gap, ['loss', -loss]);
        }
        const length: [string, number][] = [
          [`bottom${j}`, 1],
          [`top${j}`, -1],
          [`m${r}`, -1],
        ];
        const unknown = net.partSite[2 * j + 1];
        if (unknown >= 0) site(unknown, 'gapMean', ...length);
        else row(piece.length as number, a.lengthSdFirn, ...length, ['tape', -(piece.length as number)]);
        last = `bottom${j}`;
      }
      if (own.length === 0) {
        row(0, 1e-5, [`B${r}`, 1], [last, -1]);
        last = `B${r}`;
      }
      ends[r] = last;
      site(r - 1, 'stubMean', [`D${r}`, 1], [last, -1]);
    });
    for (const sounding of readings.soundings) {
      const r = Number(sounding.afterRun);
      if (r === 5) site(net.rows + 5, 'fillMean', ['f6', 1]);
      const nominal = readings.runs[r - 1].to as number;
      row(sounding.depth, sounding.sd, [`D${r}`, 1], [`f${r + 1}`, -1], ['soundingTape', nominal]);
    }
    return out;
  };
  const { value, sd } = leastSquares(rows);
  return { net, value, sd, ends };
};

describe('solveChain, sites left as they start', () => {
  const { net, value, sd, ends } = dense();
  const chain = makeChain(net);
  for (let pass = 0; pass < 8; pass++) solveChain(chain);
  const k = net.globals;

  it('gives the depths of a dense general least-squares solution to 10 nm (what dense normal equations still hold)', () => {
    for (let r = 1; r <= 5; r++) {
      expect(Math.abs(chain.hole[r] - value(`D${r}`)), `hole ${r}`).toBeLessThan(1e-8);
      expect(Math.abs(chain.core[r] - value(ends[r])), `core ${r}`).toBeLessThan(1e-8);
    }
    const place = positions(chain);
    readings.pieces.forEach((piece, j) => {
      expect(Math.abs(place.top[j] - value(`top${j}`)), `top ${piece.id}`).toBeLessThan(1e-8);
      expect(Math.abs(place.bottom[j] - value(`bottom${j}`)), `bottom ${piece.id}`).toBeLessThan(1e-8);
    });
  });

  it('gives its globals and their standard deviations', () => {
    for (const [name, column] of [
      ['cable', Global.cable],
      ['tape', Global.tape],
      ['fit', Global.fit],
      ['loss', Global.loss],
      ['fillMean', Global.fill],
      ['stubMean', Global.stub],
      ['gapMean', Global.unsure],
    ] as const) {
      expect(chain.global[column], name).toBeCloseTo(value(name), 7);
      let variance = 0;
      for (let j = 0; j < k; j++) variance += chain.factor[column * k + j] ** 2;
      expect(Math.sqrt(variance) / sd(name), name).toBeCloseTo(1, 6);
    }
  });

  it('gives its standard deviations of depths', () => {
    const place = positions(chain);
    readings.pieces.forEach((piece, j) => {
      expect(place.topSd[j] / sd(`top${j}`), `top ${piece.id}`).toBeCloseTo(1, 5);
      expect(place.bottomSd[j] / sd(`bottom${j}`), `bottom ${piece.id}`).toBeCloseTo(1, 5);
    });
    for (let r = 1; r <= 5; r++) {
      let variance = chain.cov[3 * r + 2];
      for (let j = 0; j < k; j++) variance += chain.pull[(2 * r + 1) * k + j] ** 2;
      expect(Math.sqrt(variance) / sd(`D${r}`), `hole ${r}`).toBeCloseTo(1, 6);
    }
  });
});
