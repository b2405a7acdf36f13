import { type DiameterReading, type PieceReadings, pieceBounds } from '@firnbook/science/density';
import { isOutOfPlace } from '../depth/out-of-place.ts';
import { setupOf } from '../depth/set-ups.ts';
import { standingPieces, standingRuns } from '../find.ts';
import { numberIn, textIn } from '../thing-view.ts';
import type { CampaignView, DepthView, HoleView, PieceView, RunView } from '../view.ts';
import { placeOf } from './place.ts';

const KELVIN = 273.15;

/**
 * What was measured of a hole's pieces that says something about density, in the order of the core. Snow off the wall,
 * plugs of chips and milled ice are not core and left out.
 *
 * @param depths null while the hole is not solved: the pieces then have no place
 */
export function densityReadings(
  hole: HoleView,
  campaign: Pick<CampaignView, 'others'>,
  depths: DepthView | null,
): readonly PieceReadings[] {
  const pieces = standingRuns(hole).flatMap((run) =>
    standingPieces(run)
      .filter((piece) => !isOutOfPlace(piece))
      .map((piece) => ({ run, piece })),
  );
  return apart(
    pieces.map(({ run, piece }, at) => pieceReadings(run, piece, pieces[at + 1]?.piece, campaign, depths)),
  );
}

/**
 * Two pieces whose order is not sure may each lie where the mean of both places is, one in the other. Ice is not there
 * twice: they are laid one after the other, as long as they are.
 */
function apart(readings: readonly PieceReadings[]): readonly PieceReadings[] {
  let end = -Infinity;
  return readings.map((one) => {
    if (one.top === undefined || one.bottom === undefined) return one;
    const top = Math.max(one.top, end);
    const bottom = Math.max(one.bottom, top + (one.bottom - one.top));
    end = bottom;
    return top === one.top && bottom === one.bottom ? one : { ...one, top, bottom };
  });
}

function pieceReadings(
  run: RunView,
  piece: PieceView,
  below: PieceView | undefined,
  campaign: Pick<CampaignView, 'others'>,
  depths: DepthView | null,
): PieceReadings {
  const place = placeOf(depths, piece.id);
  const length = within(numberIn(piece, 'length'), pieceBounds.length);
  const gross = within(numberIn(piece, 'mass'), pieceBounds.mass);
  const tare = numberIn(piece, 'tare');
  const temperature = numberIn(piece, 'temperature');
  const missing = numberIn(piece, 'missing');
  const diameters = ['diameterTop', 'diameterMiddle', 'diameterBottom'].flatMap(
    (field): readonly DiameterReading[] => {
      const value = within(numberIn(piece, field), pieceBounds.diameter);
      return value === null ? [] : [value];
    },
  );
  // Crumbs have a mass and no cylinder to divide it by.
  const isCrumbled = textIn(piece, 'ice') === 'crumbled';
  const sawnEnds = Number(textIn(piece, 'topBreak') === 'sawn') + Number(isSawnBelow(below));
  return {
    id: piece.id,
    cutterSet: setupOf(run, campaign)?.id ?? 'no set-up',
    ...(gross === null || isCrumbled ? {} : { gross }),
    ...(tare === null || gross === null || tare < 0 || tare >= gross ? {} : { tare }),
    lengths: length === null || isCrumbled ? [] : [length],
    diameters,
    sawnEnds: sawnEnds as 0 | 1 | 2,
    ...(missing === null || missing <= 0 || missing >= 1 ? {} : { missingShare: missing }),
    ...(temperature === null || temperature > 0 || temperature < -100
      ? {}
      : { temperature: temperature + KELVIN }),
    ...(place === undefined || place.bottom.value <= place.top.value
      ? {}
      : { top: place.top.value, bottom: place.bottom.value }),
  };
}

const isSawnBelow = (below: PieceView | undefined): boolean =>
  below !== undefined && textIn(below, 'topBreak') === 'sawn';

/** What no core has is no reading: the thing stays, the number is left out. */
const within = (value: number | null, [least, most]: readonly [number, number]): number | null =>
  value !== null && value >= least && value <= most ? value : null;
