import { randomInt, randomUUID } from 'node:crypto';
import { type CapacityStep, type CapacityTest, isTrouble, nameStick } from '@firnbook/storage/sqlite';
import { knowStick } from './known.ts';
import type { NewStick } from './places.ts';
import { startWorker } from './start-worker.ts';

export interface CapacityTask {
  readonly folder: string;
  readonly most: number;
  readonly seed: number;
  /** A 1 in it asks for the end. */
  readonly stop: SharedArrayBuffer;
}

export type CapacityAnswer =
  | { readonly is: 'far'; readonly far: CapacityStep }
  | { readonly is: 'tested'; readonly tested: CapacityTest }
  | { readonly is: 'stopped' }
  | { readonly is: 'failed'; readonly what: string; readonly mend: string };

/** What a person wants of a new stick. */
interface Wanted {
  readonly stick: NewStick;
  readonly name: string;
  /** Bytes to write and read back first; 0 for no test. */
  readonly test: number;
  readonly withoutNetwork: boolean;
}

/** The stick that is being named, or was named last. */
export interface NamingState {
  readonly place: string;
  readonly label: string;
  readonly name: string;
  /** Null before the test says so, and where there is none. */
  readonly far: CapacityStep | null;
  /** Null while it is under way. */
  readonly end:
    | { readonly is: 'named'; readonly testedBytes: number | null }
    | { readonly is: 'stopped' }
    | { readonly is: 'failed'; readonly what: string; readonly mend: string }
    | null;
}

/** Names new sticks from a screen, one at a time, each after its test. */
export interface Naming {
  state(): NamingState | null;
  /** False while another one is under way. */
  begin(wanted: Wanted): boolean;
  /** Ends the test; the stick stays as it was. */
  stop(): void;
  /** Resolves when nothing is under way. */
  close(): Promise<void>;
}

/** @param named told when a stick is known to the book from now on */
export function startNaming(dataFolder: string, named: (name: string) => void): Naming {
  let state: NamingState | null = null;
  let stopFlag: Int32Array | null = null;
  let running: Promise<void> | null = null;

  const change = (next: Partial<NamingState>) => {
    if (state !== null) state = { ...state, ...next };
  };

  async function run({ stick, name, test, withoutNetwork }: Wanted): Promise<void> {
    const answer = test > 0 ? await measure(stick.place, test) : null;
    if (answer !== null && answer.is !== 'tested') return change({ end: answer });
    const tested = answer?.tested ?? null;
    try {
      const made = nameStick(stick.place, { id: randomUUID(), name });
      knowStick(dataFolder, { ...made, folder: stick.place, tested, withoutNetwork });
      change({ end: { is: 'named', testedBytes: tested?.bytes ?? null } });
      named(made.name);
    } catch (error) {
      const what = isTrouble(error) ? error.what : 'The name could not be written to the stick';
      const mend = isTrouble(error) ? error.mend : 'Look whether it is still in and can be written to.';
      change({ end: { is: 'failed', what, mend } });
    }
  }

  async function measure(folder: string, most: number): Promise<Exclude<CapacityAnswer, { is: 'far' }>> {
    const stop = new SharedArrayBuffer(4);
    stopFlag = new Int32Array(stop);
    const worker = startWorker(new URL('./capacity-worker.js', import.meta.url), {
      folder,
      most,
      seed: randomInt(2 ** 32 - 1),
      stop,
    } satisfies CapacityTask);
    try {
      return await new Promise((resolve, reject) => {
        worker.on('message', (answer: CapacityAnswer) => {
          if (answer.is === 'far') change({ far: answer.far });
          else resolve(answer);
        });
        worker.once('error', reject);
        worker.once('exit', () => reject(new Error('The test ended without an answer.')));
      });
    } catch (error) {
      return { is: 'failed', what: String(error), mend: 'Try again, or take another stick.' };
    } finally {
      stopFlag = null;
      await worker.terminate();
    }
  }

  const stop = () => {
    if (stopFlag !== null) Atomics.store(stopFlag, 0, 1);
  };
  return {
    state: () => state,
    begin(wanted) {
      if (running !== null) return false;
      const { place, label } = wanted.stick;
      state = { place, label, name: wanted.name, far: null, end: null };
      running = run(wanted).finally(() => {
        running = null;
      });
      return true;
    },
    stop,
    async close() {
      stop();
      await running;
    },
  };
}
