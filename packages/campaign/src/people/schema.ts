import type { Kind } from '../kind.ts';

/** What was written without the right to it stands: somebody who may sign off has looked at it and says so. */
export const settledRightKind: Kind = {
  kind: 'settled right',
  entry: 'right.settled',
  version: 1,
  under: 'campaign',
  calledBy: 'person',
  right: 'signOff',
  fields: [
    /** Who had written it. */
    { name: 'person', quantity: 'thing', of: 'person', required: true },
    { name: 'right', quantity: 'word', words: ['log', 'plan', 'signOff'], required: true },
    /** Ids of the entries, a space between two: what arrives later was not looked at. */
    { name: 'entries', quantity: 'text', most: 8000, required: true },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};
