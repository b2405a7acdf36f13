import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import { describe, expect, it } from 'vitest';
import { FakeFile } from './fake-files.suite.ts';
import { change, type Gate, gated, leave, makeGate, stay } from './leaving.ts';

const newGate = (): Gate => new Int32Array(new SharedArrayBuffer(8));

/** A thread that tries for ever to change something. */
const changer = `
  const { parentPort, workerData: gate } = require('node:worker_threads');
  (async () => {
    (await import(${JSON.stringify(import.meta.resolve('tsx/esm/api'))})).register();
    const { change } = await import(${JSON.stringify(new URL('./leaving.ts', import.meta.url).href)});
    const counted = new Int32Array(gate.buffer, 8);
    parentPort.postMessage('ready');
    const thousand = () => { for (let n = 0; n < 1000; n += 1) Atomics.add(counted, 0, 1); };
    for (;;) try { change(gate, thousand); } catch (error) { if (error.name !== 'AbortError') throw error; }
  })();`;

describe('a page that is left', () => {
  it('shares no memory where the browser does not allow it', () => {
    expect(makeGate()).toBeNull();
  });

  it('lets a change end, begins none, and changes go on when it is shown again', async () => {
    const gate = new Int32Array(new SharedArrayBuffer(12), 0, 2);
    const counted = new Int32Array(gate.buffer, 8);
    const thread = new Worker(changer, { eval: true, workerData: gate });
    try {
      await once(thread, 'message');
      for (let turn = 0; turn < 50; turn += 1) {
        leave(gate);
        const at = counted[0]!;
        // Whole changes only: none is cut in two.
        expect(at % 1000).toBe(0);
        await new Promise((resolve) => setTimeout(resolve, 2));
        expect(Atomics.load(counted, 0)).toBe(at);
        stay(gate);
        while (Atomics.load(counted, 0) === at) await new Promise((resolve) => setTimeout(resolve));
      }
    } finally {
      await thread.terminate();
    }
  });

  it('waits for no change that hangs, longer than a moment', () => {
    const gate = newGate();
    gate[1] = 1;
    const start = performance.now();
    leave(gate);
    expect(performance.now() - start).toBeGreaterThan(200);
  });

  it('a change that fails is over too', () => {
    const gate = newGate();
    expect(() =>
      change(gate, () => {
        throw new Error('no room');
      }),
    ).toThrow('no room');
    expect([...gate]).toEqual([0, 0]);
  });

  it('a gated file does what the file does, and says so while it changes', () => {
    const gate = newGate();
    const seen: number[] = [];
    class Watched extends FakeFile {
      override write(bytes: Uint8Array, place: { at: number }): number {
        seen.push(gate[1]!);
        return super.write(bytes, place);
      }
      override truncate(size: number): void {
        seen.push(gate[1]!);
        super.truncate(size);
      }
    }
    const file = gated(new Watched(), gate);
    expect(file.write(new Uint8Array([1, 2, 3]), { at: 0 })).toBe(3);
    file.truncate(2);
    file.flush();
    const back = new Uint8Array(3);
    expect([file.getSize(), file.read(back, { at: 0 }), ...back]).toEqual([2, 2, 1, 2, 0]);
    expect(seen).toEqual([1, 1]);
    expect([...gate]).toEqual([0, 0]);
  });
});
