import { type Entry, type Ledger, restingIn } from '@firnbook/journal';
import type { Camp, CampBackup } from './camp.ts';

/** What the sticks hold of one journal. */
interface OnSticks {
  holds(entry: Entry): boolean;
  readonly told: { readonly entries: number; readonly at: string; readonly names: readonly string[] };
}

/** What the camp computer last told of its verified backups. Nothing is remembered over a reload: it is asked again. */
export interface SecondMedium {
  /** Null where it has told of none. */
  of(ledger: Ledger): OnSticks | null;
}

/**
 * Asks the camp computer after each exchange. A camp computer that doesn't know the question, or that is away, leaves
 * what it told before: a stick does not lose what was read back from it because the network is gone.
 */
export function startSecond(
  campaign: string,
  camp: Pick<Camp, 'backups'>,
  changed: () => void,
): SecondMedium & { ask(): Promise<void> } {
  let told: readonly CampBackup[] = [];
  let counted: { readonly size: number; readonly told: readonly CampBackup[]; readonly on: OnSticks } | null =
    null;

  return {
    async ask() {
      let list: readonly CampBackup[];
      try {
        list = await camp.backups(campaign);
      } catch {
        return;
      }
      if (JSON.stringify(list) === JSON.stringify(told)) return;
      told = list;
      changed();
    },
    of(ledger) {
      if (told.length === 0) return null;
      if (counted?.size !== ledger.size || counted.told !== told)
        counted = { size: ledger.size, told, on: count(ledger, told) };
      return counted.on;
    },
  };
}

function count(ledger: Ledger, told: readonly CampBackup[]): OnSticks {
  const holds = restingIn(
    ledger,
    told.map(({ heads }) => heads),
  );
  const newest = told
    .map(({ madeAt }) => madeAt)
    .sort()
    .at(-1)!;
  return {
    holds,
    told: {
      entries: ledger.entries().filter(holds).length,
      at: newest,
      names: told.map(({ name }) => name),
    },
  };
}
