import type { SpliceFeature, SpliceRecord, SpliceTie } from './splices.ts';

/** Kinds of layers that fall on a whole saddle at once; melt seeps where it likes. */
const wide: readonly string[] = ['dust'];

/**
 * The same layers in two records, as far as their splice lets them lie near each other: nearest first, each layer once.
 *
 * @param reach metres that a layer may lie off and still be the same
 * @param kinds of layers that are matched; dust alone where it is left out
 */
export function tiesBetween(
  of: SpliceRecord,
  on: SpliceRecord,
  reach: number,
  kinds: readonly string[] = wide,
): readonly SpliceTie[] {
  const pairs = of.features.flatMap((a) =>
    on.features.flatMap((b) => {
      if (a.what !== b.what || !kinds.includes(a.what)) return [];
      const off = Math.abs(middle(a) - of.offset - (middle(b) - on.offset));
      return off <= reach ? [{ a, b, off }] : [];
    }),
  );
  const taken = new Set<string>();
  const ties: { readonly tie: SpliceTie; readonly at: number }[] = [];
  for (const { a, b } of pairs.sort((one, other) => one.off - other.off)) {
    if (taken.has(a.id) || taken.has(b.id)) continue;
    taken.add(a.id);
    taken.add(b.id);
    ties.push({
      tie: { of: { record: of.id, feature: a.id }, on: { record: on.id, feature: b.id } },
      at: middle(b) - on.offset,
    });
  }
  return ties.sort((one, other) => one.at - other.at).map(({ tie }) => tie);
}

const middle = ({ top, bottom }: SpliceFeature): number => (top + bottom) / 2;
