import { askCamp, askOwn } from '../pair/gate.ts';

/** New sticks and the camp network on sticks, as the camp computer answers to its own browser alone. */

/** A medium in the camp computer that the book does not write to yet. */
export interface NewStick {
  readonly place: string;
  readonly label: string;
  readonly bytes: number;
  readonly free: number;
  /** The name that another book gave it. */
  readonly name: string | null;
  readonly canWrite: boolean;
}

export interface Naming {
  readonly label: string;
  readonly name: string;
  readonly far: { readonly doing: 'writing' | 'reading'; readonly bytes: number; readonly of: number } | null;
  readonly end:
    | { readonly is: 'named'; readonly testedBytes: number | null }
    | { readonly is: 'stopped' }
    | { readonly is: 'failed'; readonly what: string; readonly mend: string }
    | null;
}

export interface AtComputer {
  readonly sticks: readonly NewStick[];
  /** The one that is being named, or was last. */
  readonly naming: Naming | null;
  readonly hasNetwork: boolean;
}

export interface WantedName {
  readonly place: string;
  readonly name: string;
  readonly test: 'none' | 'short' | 'all';
  readonly withoutNetwork: boolean;
}

/** The camp network as it lies on a stick. */
export interface NetworkOnStick {
  readonly isHere: boolean;
  readonly network: {
    readonly madeAt: string;
    readonly host: string | null;
    readonly devices: number;
  } | null;
  /** Where copies lie there and none is whole. */
  readonly trouble: { readonly what: string; readonly mend: string } | null;
}

let isHere: Promise<boolean> | null = null;

/** Whether this browser is the camp computer's own. Asked once, and again where no answer came. */
export function isAtComputer(): Promise<boolean> {
  isHere ??= askOwn().then(
    (own) => own.isHere,
    () => {
      isHere = null;
      return false;
    },
  );
  return isHere;
}

export const lookForSticks = async (): Promise<AtComputer> =>
  (await askCamp('/api/sticks/unnamed', 'GET')) as AtComputer;

export const nameStick = async (wanted: WantedName): Promise<void> =>
  void (await askCamp('/api/sticks/unnamed', 'POST', wanted));

export const stopTest = async (): Promise<void> =>
  void (await askCamp('/api/sticks/unnamed/stop', 'POST', {}));

export const networkOnStick = async (stick: string): Promise<NetworkOnStick> =>
  (await askCamp(`/api/sticks/${encodeURIComponent(stick)}/network`, 'GET')) as NetworkOnStick;

export const recoverNetwork = async (stick: string): Promise<void> =>
  void (await askCamp(`/api/sticks/${encodeURIComponent(stick)}/recover-network`, 'POST', {}));
