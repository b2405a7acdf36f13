import type { DepthView, HoleView, PieceView, ReadingView, RunView, ThingView } from '@firnbook/campaign';
import { defaultAssumptions, solveDepths } from '@firnbook/science/depth';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { CoreAxis, type CoreAxisProps } from './core-axis.tsx';

/** Invented: one run of two pieces in hole B of the Ceredin Saddle. */
function thing(id: string, kind: string, name: string, readings: ThingView['readings'] = {}): ThingView {
  return {
    id,
    kind,
    name,
    aliases: [],
    by: 'MO',
    at: '2026-06-14T11:42:00+02:00',
    device: 'tablet',
    readings,
    withdrawn: null,
    entries: [id],
  };
}

const topBreak = (text: string): ThingView['readings'] => ({
  topBreak: {
    field: 'topBreak',
    text,
    value: null,
    entry: 'e',
    by: 'MO',
    at: '2026-06-14T11:42:00+02:00',
    struck: [],
    against: [],
  } satisfies ReadingView,
});

const pieces: readonly PieceView[] = [
  { ...thing('one', 'piece', 'B-P034.1', topBreak('fits')), run: 'run', number: 1 },
  { ...thing('two', 'piece', 'B-P034.2', topBreak('unsure')), run: 'run', number: 2 },
];
const run: RunView = { ...thing('run', 'run', 'B-R034'), number: 34, nothingRecovered: false, pieces };
const hole: HoleView = {
  ...thing('hole', 'hole', 'B'),
  letter: 'B',
  zeros: [],
  runs: [run],
  soundings: [],
  others: {},
  conflicts: [],
  notUnderstood: 0,
  waiting: 0,
};
const about = (value: number, sd: number) => ({ value, sd, min: value - 3 * sd, max: value + 3 * sd });
const nothing = solveDepths({ runs: [], pieces: [], soundings: [] });
const depths: DepthView = {
  hole: 'hole',
  solver: 'test',
  assumptions: defaultAssumptions,
  pieces: {
    one: { top: about(28.5123, 0.004), bottom: about(28.938, 0.014) },
    two: { top: about(28.94, 0.03), bottom: about(29.48, 0.031) },
  },
  runs: { run: { holeBottom: about(29.51, 0.03), stub: about(0.03, 0.01) } },
  findings: [
    {
      what: 'piece',
      which: 'two',
      field: 'length',
      size: 0.1,
      likely: '10 cm',
      probability: 0.97,
      detectable: 0.02,
    },
  ],
  learned: nothing.learned,
  confirmed: [],
  converged: true,
  coreBottom: null,
  holeBottom: null,
};

const markup = (props: Partial<CoreAxisProps> = {}): string =>
  renderToStaticMarkup(
    <CoreAxis
      hole={hole}
      depths={depths}
      selected={null}
      onSelect={() => undefined}
      mode="whole"
      theme="standard"
      {...props}
    />,
    // The machine that runs the test may write numbers with a comma.
  ).replace(/(\d),(\d)/g, '$1.$2');

describe('CoreAxis', () => {
  it('lists every piece with its solved top and bottom, their spread and its break, to be read aloud', () => {
    const html = markup();
    const rows = [...html.matchAll(/<tr data-piece="(\w+)".*?<\/tr>/g)].map(([row]) =>
      row.replace(/<[^>]+>/g, '|').replace(/\|+/g, '|'),
    );
    expect(rows).toEqual([
      '|B-P034.1|28.512 m ± 4 mm|28.94 m ± 1 cm|fits the piece above|',
      '|B-P034.2|28.94 m ± 3 cm|29.48 m ± 3 cm|unsure whether it fits; a person is needed|',
    ]);
    expect(html).toContain('data-top="28.5123"');
  });

  it('is one slider over the pieces that speaks the selected one', () => {
    const html = markup({ selected: 'two' });
    expect(html).toMatch(
      /role="slider" tabindex="0" aria-orientation="vertical" aria-label="Core of hole B"/,
    );
    expect(html).toContain('aria-valuenow="2"');
    expect(html).toContain(
      'aria-valuetext="B-P034.2, 28.94 m ± 3 cm to 29.48 m ± 3 cm, unsure whether it fits"',
    );
    expect(html).toContain('<tr data-piece="two" aria-current="true">');
  });

  it('without a solution says so and lists no depth', () => {
    const html = markup({ depths: null });
    expect(html).toContain('Depths are not solved yet');
    expect(html).not.toContain('data-top');
  });

  it('in a field form has step buttons and the depth field, no zoom', () => {
    const html = markup({ mode: 'two-runs' });
    for (const text of ['Previous run', 'Next run', 'Go to depth']) expect(html).toContain(text);
    expect(html).not.toContain('Closer');
  });

  it('speaks the texts it is given', () => {
    expect(markup({ say: (text) => `«${text}»` })).toContain('«previousRun»');
  });
});
