import type { Doubt } from '../command.ts';
import type { Doubted } from '../doubted.ts';
import { standing } from '../find.ts';
import { sentence } from '../texts/sentence.ts';

/** Two people with the same initials, two holes with the same letter. */
export function setupDoubts({ kind, campaign, thing, readings, said }: Doubted): readonly Doubt[] {
  if (kind.kind === 'person' && said.includes('initials')) {
    const initials = readings.initials?.trim() ?? '';
    const isThere = standing(campaign.people).some((one) => one.id !== thing?.id && one.name === initials);
    if (isThere)
      return [{ field: 'initials', what: sentence('doubt.initials.there', { initials }), likely: [] }];
  }
  if (kind.kind === 'hole' && said.includes('letter')) {
    const isThere = standing(campaign.holes).some(
      (one) => one.id !== thing?.id && one.letter === readings.letter,
    );
    if (isThere)
      return [
        {
          field: 'letter',
          what: sentence('doubt.letter.there', { letter: readings.letter ?? '' }),
          likely: [],
        },
      ];
  }
  return [];
}
