/// <reference lib="dom" />

/** What the page notes of one reading, in its own milliseconds: from the tap to the frame that says the piece is taken, and to the frame with its depths. */
export interface Noted {
  readonly answered: number;
  readonly solved: number;
}

/**
 * Runs in the page: leaves in `noted` how long the last saved piece took to be shown with its depths, and in `keys` how
 * long each tap on the pad of digits took to be drawn, which is the least that any tap takes.
 */
export function watchAnswers(): void {
  const own = globalThis as unknown as { noted: Noted | null; keys: number[] };
  own.keys = [];
  let tapped = 0;
  let answered = 0;
  document.addEventListener(
    'click',
    (event) => {
      const of = event.timeStamp;
      if ((event.target as Element).closest('.pad') !== null) frame((now) => own.keys.push(now - of));
      if ((event.target as Element).closest('button[type="submit"]') === null) return;
      tapped = event.timeStamp;
      answered = 0;
    },
    true,
  );
  const frame = (then: (now: number) => void) => {
    // A message that is posted in a frame is heard when that frame is done.
    requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => then(performance.now());
      channel.port2.postMessage(null);
    });
  };
  new MutationObserver(() => {
    if (tapped === 0) return;
    const says = document.querySelector('.answer .say')?.textContent ?? null;
    if (says === null) return;
    const of = tapped;
    if (answered === 0) {
      answered = -1;
      frame((now) => {
        answered = now - of;
      });
    }
    if (!/Solved top \d/.test(says)) return;
    tapped = 0;
    frame((now) => {
      own.noted = { answered, solved: now - of };
    });
  }).observe(document.body, { childList: true, subtree: true, characterData: true });
}

/** Runs in the page. */
export const keysWereDrawnIn = (): readonly number[] =>
  (globalThis as unknown as { keys: readonly number[] }).keys;

/** Runs in the page: null until the piece is shown. */
export const whatWasNoted = (): Noted | null => (globalThis as unknown as { noted: Noted | null }).noted;
