import type { Replica } from '@firnbook/journal';

export interface Title {
  readonly name: string;
  readonly invented: boolean;
}

/** What the list of campaigns calls it. */
export function titleOf(replica: Replica): Title {
  const opened = replica.ledger.entries().find(({ header }) => header.kind === 'campaign.opened');
  const name = opened?.body?.name;
  return {
    name: typeof name === 'string' ? name : replica.campaign,
    invented: String(opened?.body?.invented) === 'true',
  };
}
