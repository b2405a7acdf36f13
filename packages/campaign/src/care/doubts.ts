import type { Doubt } from '../command.ts';
import type { Doubted } from '../doubted.ts';
import { sentence } from '../texts/sentence.ts';

/** What ends does so after it began. */
export function spanDoubts({ readings, said }: Doubted): readonly Doubt[] {
  if (!(said.includes('began') || said.includes('ended'))) return [];
  const [began, ended] = [Date.parse(readings.began ?? ''), Date.parse(readings.ended ?? '')];
  if (!(ended < began)) return [];
  return [
    {
      field: 'ended',
      what: sentence('doubt.span'),
      likely: [
        {
          label: sentence('slip.span'),
          readings: { began: readings.ended!, ended: readings.began! },
        },
      ],
    },
  ];
}
