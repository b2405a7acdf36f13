import type { Doubt } from '../command.ts';
import type { Doubted } from '../doubted.ts';

/** Two people with the same initials, two holes with the same letter. */
export function setupDoubts({ kind, campaign, thing, readings, said }: Doubted): readonly Doubt[] {
  if (kind.kind === 'person' && said.includes('initials')) {
    const initials = readings.initials?.trim() ?? '';
    const isThere = campaign.people.some((one) => one.id !== thing?.id && one.name === initials);
    if (isThere)
      return [
        { field: 'initials', what: `Somebody else signs as ${initials}. Is it the same person?`, likely: [] },
      ];
  }
  if (kind.kind === 'hole' && said.includes('letter')) {
    const isThere = campaign.holes.some((one) => one.id !== thing?.id && one.letter === readings.letter);
    if (isThere)
      return [
        {
          field: 'letter',
          what: `There is a hole ${readings.letter} already. Is it the same one?`,
          likely: [],
        },
      ];
  }
  return [];
}
