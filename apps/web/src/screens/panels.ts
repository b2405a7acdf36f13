import type { DensityView, DepthView, HoleView } from '@firnbook/campaign';
import { columnInput, type PanelInput } from '@firnbook/drawing';
import type { ScaleOfHole } from '@firnbook/science/depth-scales';
import { t } from '../texts/t.ts';

type Gaps = PanelInput['gaps'];

/** Depths at which no ice came up, metres; breaks that nearly fit are none. */
export function gapsOf(hole: HoleView, depths: DepthView): Gaps {
  const { pieces } = columnInput(hole, depths);
  return pieces.flatMap((piece, at): Gaps => {
    const top = pieces[at - 1]?.bottom.value;
    return top === undefined || piece.top.value - top < seen ? [] : [{ top, bottom: piece.top.value }];
  });
}

const seen = 0.01;

/** Density of every piece at its length, the smooth profile with its band, and the model plain and fitted. */
export function densityPanel(view: DensityView, gaps: Gaps): PanelInput {
  const samples = Object.values(view.pieces)
    .flatMap(({ id, top, bottom, result, flag }) =>
      top === null || bottom === null || result === null
        ? []
        : [
            {
              thing: id,
              top,
              bottom,
              value: result.density.value,
              sd: Math.hypot(result.density.randomSd, result.density.sharedSd),
              flagged: flag !== null,
            },
          ],
    )
    .sort((a, b) => a.top - b.top);
  return {
    name: t('density.title'),
    unit: 'kg/m³',
    decimals: 0,
    samples,
    curves: [
      {
        colour: 'act',
        points: view.profile.map(({ depth, value, randomSd, sharedSd }) => {
          const sd = Math.hypot(randomSd, sharedSd);
          return { depth, value, low: value - sd, high: value + sd };
        }),
      },
      { colour: 'ink-2', dash: [0.5, 1], points: view.model },
      { colour: 'ink', dash: [2.2, 1.1], points: view.fit?.curve ?? [] },
    ],
    gaps,
  };
}

/** How far a scale lies below the solved one, centimetres, with twice the standard deviation of the solved depths. */
export function scalePanel(name: string, scale: ScaleOfHole, solved: ScaleOfHole, gaps: Gaps): PanelInput {
  const at = new Map(scale.places.map((place, index) => [`${place.piece} ${place.end}`, scale.at[index]]));
  const own = solved.places.map((place, index) => ({
    depth: solved.at[index] ?? 0,
    sd: solved.sd?.[index] ?? 0,
    other: at.get(`${place.piece} ${place.end}`) ?? null,
  }));
  return {
    name,
    unit: 'cm',
    decimals: 0,
    samples: [],
    curves: [
      {
        colour: 'ink-2',
        dash: [0.4, 0.8],
        points: own.map(({ depth, sd }) => ({ depth, value: 0, low: -200 * sd, high: 200 * sd })),
      },
      {
        colour: 'ink',
        points: own.flatMap(({ depth, other }) =>
          other === null ? [] : [{ depth, value: 100 * (other - depth) }],
        ),
      },
    ],
    gaps,
  };
}
