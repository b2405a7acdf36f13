import type { Doubt } from '../command.ts';
import { type Doubted, valueIn } from '../doubted.ts';
import { isCalled, standing, standingRuns } from '../find.ts';
import type { MeasureField } from '../kind.ts';
import { fieldOf } from '../kinds.ts';
import { likelySlips } from '../slips.ts';
import { sentence } from '../texts/sentence.ts';
import { numberIn, textIn } from '../thing-view.ts';
import { barrelOf } from './barrel.ts';

/** How far things that claim the same may lie apart before it is asked about. Common practice, no source. */
const CABLE = 0.015;
const ZERO = 0.1;
const BARREL = 0.03;
const BELOW = 0.5;

/** A cable is out by a percent at most, so its counter is near the mark. */
export function cableDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, readings, said } = doubted;
  if (kind.kind !== 'cable check' || !(said.includes('mark') || said.includes('counter'))) return [];
  const [mark, counter] = [valueIn(doubted, 'mark'), valueIn(doubted, 'counter')];
  if (mark === null || counter === null) return [];
  const fits = (metres: number): boolean => Math.abs(metres - mark) <= CABLE * mark + 0.05;
  if (fits(counter)) return [];
  return [
    {
      field: 'counter',
      what: sentence('doubt.cable', { mark: { depth: mark }, counter: readings.counter! }),
      likely: likelySlips(readings.counter!, fieldOf(kind, 'counter') as MeasureField, kind, fits),
    },
  ];
}

/** A zero that is measured again stands about where it stood. */
export function zeroCheckDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, readings, said } = doubted;
  const height = valueIn(doubted, 'height');
  if (kind.kind !== 'zero check' || hole === null || height === null || !said.includes('height')) return [];
  const zero = standing(hole.zeros).find((one) => isCalled(one, readings.zero ?? ''));
  if (zero === undefined) return [];
  const before = numberIn(zero, 'height') ?? (zero === standing(hole.zeros)[0] ? 0 : null);
  if (before === null || Math.abs(height - before) <= ZERO) return [];
  return [
    {
      field: 'height',
      what: sentence('doubt.zero.check', { before: { length: before }, now: readings.height! }),
      likely: likelySlips(
        readings.height!,
        fieldOf(kind, 'height') as MeasureField,
        kind,
        (metres) => Math.abs(metres - before) <= ZERO,
      ),
    },
  ];
}

/** Nobody measures the direction of a hole below its bottom. */
export function inclinationDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, readings, said } = doubted;
  const depth = valueIn(doubted, 'depth');
  if (kind.kind !== 'inclination' || hole === null || depth === null || !said.includes('depth')) return [];
  const bottom = Math.max(0, ...standingRuns(hole).map((run) => numberIn(run, 'to') ?? 0));
  if (bottom === 0 || depth <= bottom + BELOW) return [];
  return [
    {
      field: 'depth',
      what: sentence('doubt.inclination', { depth: readings.depth!, bottom: { depth: bottom } }),
      likely: likelySlips(
        readings.depth!,
        fieldOf(kind, 'depth') as MeasureField,
        kind,
        (metres) => metres <= bottom + BELOW,
      ),
    },
  ];
}

/** Core that stood in the hole and core that was drilled have to fit into the barrel. */
export function barrelDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, readings, said } = doubted;
  if (kind.kind !== 'run' || hole === null || !said.includes('to')) return [];
  const [from, to] = [valueIn(doubted, 'from'), valueIn(doubted, 'to')];
  const last = standingRuns(hole).at(-1);
  const holds = barrelOf(doubted);
  if (from === null || to === null || holds === null || to <= from) return [];
  const number = valueIn(doubted, 'number');
  const isNext = last !== undefined && number === last.number + 1;
  const stub = isNext && textIn(last, 'stub') !== '' ? (numberIn(last, 'stub') ?? 0) : 0;
  if (to - from + stub <= holds + BARREL) return [];
  return [
    {
      field: 'to',
      what: sentence('doubt.barrel', { length: { length: to - from + stub }, barrel: { length: holds } }),
      likely: likelySlips(
        readings.to!,
        fieldOf(kind, 'to') as MeasureField,
        kind,
        (metres) => metres > from && metres - from + stub <= holds + BARREL,
      ),
    },
  ];
}
