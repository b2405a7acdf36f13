import type { Sealed } from '@firnbook/journal';
import { trouble } from './trouble.ts';

const hashForm = /^[0-9a-f]{64}$/;
const loneSurrogate = /\p{Surrogate}/u;

/** The header of a sealed entry as far as a store looks at it; null when the text isn't one. */
export function peek(head: string): { campaign: unknown; id: unknown } | null {
  try {
    const parsed: unknown = JSON.parse(head);
    return typeof parsed === 'object' && parsed !== null && 'campaign' in parsed && 'id' in parsed
      ? parsed
      : null;
  } catch {
    return null;
  }
}

/**
 * Refuses a batch that this journal must not hold, before anything is written: entries of another campaign,
 * and text that UTF-8 can't carry unchanged. Hash, canonical form and chain are the sync core's to check (J5).
 *
 * @throws StoreTrouble 'refused', naming the place in the batch.
 */
export function admit(campaign: string, batch: readonly Sealed[]): void {
  for (const [index, sealed] of batch.entries()) {
    const where = `entry ${index + 1} of ${batch.length}, ${String(sealed.hash).slice(0, 12)}`;
    const texts = [sealed.hash, sealed.head, sealed.body ?? '', sealed.signature ?? ''];
    if (texts.some((text) => typeof text !== 'string') || !hashForm.test(sealed.hash))
      throw trouble('refused', 'This is not a sealed entry', where, 'Seal the entry before it is stored.');
    if (texts.some((text) => loneSurrogate.test(text)))
      throw trouble('refused', 'The text holds half a character', where, 'Write the reading again.');
    const header = peek(sealed.head);
    if (header === null)
      throw trouble('refused', 'The head of the entry is not readable', where, 'Seal the entry again.');
    if (header.campaign !== campaign)
      throw trouble(
        'refused',
        `The entry belongs to campaign ${String(header.campaign)}, this journal holds ${campaign}`,
        where,
        'Send it to the journal of its own campaign.',
      );
  }
}
