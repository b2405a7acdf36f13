import type { DepthView, HoleView, PieceView, RunView } from '@firnbook/campaign';
import { describe, expect, it } from 'vitest';
import { howLines } from './how-lines.ts';

// Invented readings and depths; what is left over is worked out by hand beside each.
const said = { by: 'HN', at: '2026-06-14T11:42:00+05:45', struck: [], against: [] };
const reading = (field: string, text: string, value: number | null) => ({
  field,
  text,
  value,
  entry: field,
  ...said,
});
const thing = (id: string, kind: string) => ({
  id,
  kind,
  name: id,
  aliases: [],
  by: 'HN',
  at: said.at,
  device: 'd',
  readings: {},
  withdrawn: null,
  entries: [id],
});
const piece = (run: string, number: number, text: string, length: number): PieceView => ({
  ...thing(`${run}.${number}`, 'piece'),
  run,
  number,
  readings: { length: reading('length', text, length) },
});
const run = (number: number, from: number, to: number, pieces: readonly PieceView[]): RunView => ({
  ...thing(`R${number}`, 'run'),
  number,
  nothingRecovered: false,
  pieces,
  readings: { from: reading('from', `${from} m`, from), to: reading('to', `${to} m`, to) },
});
const at = (value: number) => ({ value, sd: 0.02, min: value - 1, max: value + 1 });

const first = run(1, 0, 0.9, [piece('R1', 1, '88 cm', 0.88)]);
const second = run(2, 0.9, 1.84, [piece('R2', 1, '40,2 cm', 0.402), piece('R2', 2, '50 cm', 0.5)]);
const hole: HoleView = {
  ...thing('hole', 'hole'),
  letter: 'B',
  zeros: [],
  runs: [first, second],
  soundings: [
    {
      ...thing('S', 'sounding'),
      readings: { afterRun: reading('afterRun', 'R2', null), depth: reading('depth', '1.80 m', 1.8) },
    },
  ],
  others: {},
  conflicts: [],
  notUnderstood: 0,
  waiting: 0,
};
const view = {
  runs: {
    R1: { holeBottom: at(0.89), stub: at(0.01) },
    R2: { holeBottom: at(1.81), stub: at(0.02) },
  },
  pieces: {
    'R1.1': { top: at(0), bottom: at(0.88) },
    'R2.1': { top: at(0.885), bottom: at(1.288) },
    'R2.2': { top: at(1.289), bottom: at(1.79) },
  },
} as unknown as DepthView;

describe('howLines', () => {
  it('puts the readings and solved depths of a piece and its run into each equation', () => {
    const lines = howLines(hole, second, second.pieces[1], view);
    expect(lines.map((line) => [line.key, Number(line.rest.toFixed(6))])).toEqual([
      ['how.line.from', 0.01], // 0.90 - 0.89
      ['how.line.to', 0.03], // 1.84 - 1.81
      ['how.line.gap', 0.001], // 1.289 - 1.288
      ['how.line.length', 0.001], // 1.79 - 1.289 - 0.50
      ['how.line.stub', 0.02], // 1.81 - 1.79
      ['how.line.sounding', -0.01], // 1.80 - 1.81
    ]);
    expect(lines[3]).toMatchObject({ names: { name: 'R2.2' }, readings: { length: '50 cm' } });
  });

  it('leaves out what was not read or is not solved', () => {
    expect(howLines(hole, first, first.pieces[0], view).map((line) => line.key)).toEqual([
      'how.line.to',
      'how.line.length',
      'how.line.stub',
    ]);
    expect(howLines(hole, second, undefined, { ...view, runs: {}, pieces: {} })).toEqual([]);
  });
});
