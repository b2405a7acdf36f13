import type { BrowserSigning } from '@firnbook/storage/browser';
import { askOwn, type Own, tellKey } from './gate.ts';

/** What telling needs of the camp computer. */
interface Gate {
  readonly askOwn: () => Promise<Own>;
  readonly tellKey: typeof tellKey;
}

/**
 * Tells the camp computer once per start which key this device signs with: a device that was paired by an older
 * version has told none. Called whenever the camp computer answered; never rejects, and asks again until it was heard.
 *
 * @param signing opened only for a device that is paired
 */
export function startOwnKey(
  signing: () => Promise<BrowserSigning>,
  gate: Gate = { askOwn, tellKey },
): () => Promise<void> {
  let isDone = false;
  return async () => {
    if (isDone) return;
    isDone = true;
    const own = await gate.askOwn().catch(() => null);
    isDone = own !== null;
    if (!own?.isPaired || own.challenge === null) return;
    const { signer } = await signing();
    if (signer === undefined || signer.key === own.publicKey) return;
    // Where it is refused, the camp computer tells so under Devices; else the next start says it again.
    await gate.tellKey(signer, own.challenge).catch(() => undefined);
  };
}
