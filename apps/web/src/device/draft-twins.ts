import { openTwins, type Twins } from '@firnbook/storage/browser';
import { forget, keep, keptNames, onDrafts, recall } from './kept.ts';

/** Milliseconds that a key of a form waits for the next ones before it is flushed. */
const pause = 300;
/** A start waits no longer than this for forms that were begun. */
const patience = 400;
const mark = 'drafts.number';
const drafts = 'draft.';

/**
 * Browsers write localStorage down some seconds late: a battery that dies in the middle of a form takes its last keys.
 * So forms that are begun rest in two files as well, flushed; at a start the later of the two states counts.
 */
export async function keepDraftsTwice(
  open: () => Promise<Twins | null> = () => openTwins('drafts'),
): Promise<void> {
  let isLate = false;
  const opening = begin(open, () => !isLate).catch(() => undefined);
  await Promise.race([opening, new Promise((resolve) => setTimeout(resolve, patience))]);
  isLate = true;
}

/** @param mayRestore false once forms stand on the screen: what is typed there is the later state */
async function begin(open: () => Promise<Twins | null>, mayRestore: () => boolean): Promise<void> {
  const twins = await open();
  if (twins === null) return;
  const written = await twins.read();
  if (written !== null && mayRestore() && written.number > Number(recall(mark) ?? 0)) {
    for (const name of keptNames(drafts)) if (!(name in written.texts)) forget(name);
    for (const [name, text] of Object.entries(written.texts)) keep(name, text);
    keep(mark, String(written.number));
  }
  let isComing = false;
  let going: Promise<void> = Promise.resolve();
  const write = () => {
    isComing = false;
    const texts = Object.fromEntries(keptNames(drafts).map((name) => [name, recall(name) ?? '']));
    const number = Number(recall(mark) ?? 0);
    // A full disk costs the second copy of a form, no more.
    going = going.then(() => twins.write({ number, texts })).catch(() => undefined);
  };
  onDrafts(() => {
    keep(mark, String(Math.max(Number(recall(mark) ?? 0) + 1, Date.now())));
    if (!isComing) setTimeout(write, pause);
    isComing = true;
  });
}
