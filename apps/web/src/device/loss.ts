import { forget, keep, recall } from './kept.ts';

/** What this browser did to a campaign's record on this device. */
export interface Loss {
  /** 'put back': dropped, and there again from the second copy. 'lost': dropped with everything beside it. */
  readonly kind: 'put back' | 'lost';
  /** Entries put back; 0 where they are lost. */
  readonly count: number;
}

/** Remembers that a campaign was held here, so that its absence is told and not taken for a beginning. */
export interface LossWatch {
  /** Null where nothing happened, or a person has read it. */
  readonly current: Loss | null;
  /** The store was opened: how many entries it holds, and how many of them came back from the second copy. */
  opened(held: number, putBack: number): void;
  /** Entries are here now. */
  holds(): void;
  /** A person has read it. */
  seen(): void;
}

export function watchLoss(campaign: string): LossWatch {
  const mark = `held.${campaign}`;
  const told = `loss.${campaign}`;
  let current = readLoss(recall(told));
  let isMarked = false;

  const tell = (loss: Loss) => {
    current = loss;
    keep(told, JSON.stringify(loss));
  };
  const holds = () => {
    if (!isMarked) keep(mark, 'yes');
    isMarked = true;
  };

  return {
    get current() {
      return current;
    },
    opened(held, putBack) {
      if (putBack > 0) tell({ kind: 'put back', count: putBack });
      else if (held === 0 && wasHeld(campaign)) tell({ kind: 'lost', count: 0 });
      if (held > 0) holds();
    },
    holds,
    seen() {
      current = null;
      forget(told);
    },
  };
}

/** Whether entries of a campaign have been on this device. */
export function wasHeld(campaign: string): boolean {
  return recall(`held.${campaign}`) !== null;
}

function readLoss(text: string | null): Loss | null {
  if (text === null) return null;
  try {
    const { kind, count } = JSON.parse(text) as Loss;
    return kind === 'put back' || kind === 'lost' ? { kind, count: Number(count) } : null;
  } catch {
    return null;
  }
}
