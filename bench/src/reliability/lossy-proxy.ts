/**
 * A bad network between devices and the camp computer, as a TCP proxy: what a tent's radio does, drawn from a seed.
 * Nothing of what passes is changed; it is cut, kept back, or said twice.
 */
import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { type Random, seeded } from '@firnbook/science/random';
import { createRequestReader } from './lossy-proxy-requests.ts';

/** How likely each trouble is for a connection, 0 to 1. More than one may hit the same. */
export interface Troubles {
  /** Ended before a byte passes. */
  readonly refuse: number;
  /** Ended after some bytes from the device: the server may have read a part, or all. */
  readonly cutUp: number;
  /** Ended after some bytes from the server: what was asked is done, the answer is lost in part or as a whole. */
  readonly cutDown: number;
  /** Every piece comes later, both ways. */
  readonly delay: number;
  /** After some bytes nothing passes any more, neither way, and nobody is told; it ends later. */
  readonly stall: number;
  /** For each whole request that writes: it comes a second time, later, on a connection of its own. */
  readonly replay: number;
}

export type Trouble = keyof Troubles;

export interface LossyProxy {
  /** "http://127.0.0.1:41234": the same whatever happens behind it. */
  readonly address: string;
  /** How often each trouble came about: a test that met none has tested nothing. */
  readonly met: Readonly<Record<Trouble, number>>;
  /** The server's address from now on, after it was started anew. */
  aim(address: string): void;
  /** Troubles of connections from now on; those of the ones that are open stay. */
  trouble(troubles: Troubles): void;
  /** Ends every open connection, and passes everything on from now on. */
  heal(): void;
  close(): Promise<void>;
}

export interface ProxyPlan {
  readonly seed: number;
  readonly troubles: Troubles;
  /** Bytes after which a cut or a stall comes: uniform from 0 to this. */
  readonly reach: number;
  /** Most that a piece comes late, ms. */
  readonly lateness: number;
  /** How long a stalled connection lies there before it ends, ms. */
  readonly stallFor: number;
}

export const calm: Troubles = { refuse: 0, cutUp: 0, cutDown: 0, delay: 0, stall: 0, replay: 0 };

/** What befalls one connection; Infinity for what does not. */
interface Fate {
  readonly isRefused: boolean;
  readonly upBytes: number;
  readonly downBytes: number;
  readonly stallBytes: number;
  readonly lateness: number;
  readonly isReset: boolean;
}

export async function startLossyProxy(plan: ProxyPlan): Promise<LossyProxy> {
  const random = seeded(plan.seed);
  const met = { refuse: 0, cutUp: 0, cutDown: 0, delay: 0, stall: 0, replay: 0 };
  const open = new Set<Socket>();
  let troubles = plan.troubles;
  let port = 0;
  let isClosed = false;

  const hold = (socket: Socket): Socket => {
    open.add(socket);
    socket.setNoDelay(true);
    socket.once('close', () => open.delete(socket));
    // What goes wrong with one side ends the other; nobody else needs to hear of it.
    socket.on('error', () => undefined);
    return socket;
  };

  const server: Server = createServer((device) => {
    hold(device);
    const fate = fateOf(random, troubles, plan);
    if (fate.isRefused || port === 0) {
      if (fate.isRefused) met.refuse += 1;
      end(device, true);
      return;
    }
    const camp = hold(connect(port, '127.0.0.1'));
    const wire = createWire(fate, plan, met, [device, camp]);
    const reader = createRequestReader((request) => {
      if (random.uniform() >= troubles.replay) return;
      void sayAgain(request, random.uniform() * plan.stallFor);
    });
    void pass(device, camp, wire.up, (piece) => reader.read(piece));
    void pass(camp, device, wire.down, () => undefined);
  });

  async function sayAgain(request: Buffer, later: number): Promise<void> {
    const to = port;
    await pause(later);
    if (isClosed || port === 0 || port !== to) return;
    met.replay += 1;
    const again = hold(connect(port, '127.0.0.1'));
    again.resume();
    again.write(request);
    // The answer is for nobody.
    await pause(plan.stallFor);
    again.destroy();
  }

  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const bound = server.address();
  if (bound === null || typeof bound === 'string') throw new Error('The proxy has no port.');
  const dropAll = (): void => {
    for (const socket of open) socket.destroy();
  };
  return {
    address: `http://127.0.0.1:${bound.port}`,
    met,
    aim: (address) => {
      port = Number(new URL(address).port);
    },
    trouble: (next) => {
      troubles = next;
    },
    heal: () => {
      troubles = calm;
      dropAll();
    },
    close: async () => {
      isClosed = true;
      const closed = once(server, 'close');
      server.close();
      dropAll();
      await closed;
    },
  };
}

/** Always the same number of draws, so that one likelihood does not change what else happens under a seed. */
function fateOf(random: Random, troubles: Troubles, { reach, lateness }: ProxyPlan): Fate {
  const is = (likelihood: number): boolean => random.uniform() < likelihood;
  const bytes = (likelihood: number): number => {
    const at = Math.floor(random.uniform() * reach);
    return is(likelihood) ? at : Number.POSITIVE_INFINITY;
  };
  return {
    isRefused: is(troubles.refuse),
    upBytes: bytes(troubles.cutUp),
    downBytes: bytes(troubles.cutDown),
    stallBytes: bytes(troubles.stall),
    lateness: is(troubles.delay) ? random.uniform() * lateness : 0,
    isReset: is(0.5),
  };
}

/** Lets through what may pass of a piece. Resolves with null where nothing passes any more. */
type Gate = (piece: Buffer) => Promise<Buffer | null>;

/** Both directions of one connection share a stall. */
function createWire(
  fate: Fate,
  plan: ProxyPlan,
  met: Record<Trouble, number>,
  ends: readonly Socket[],
): { readonly up: Gate; readonly down: Gate } {
  let passed = 0;
  let isStalled = false;
  const cut = (): void => {
    for (const socket of ends) end(socket, fate.isReset);
  };
  const stall = async (): Promise<void> => {
    if (isStalled) return;
    isStalled = true;
    met.stall += 1;
    await pause(plan.stallFor);
    cut();
  };
  if (fate.lateness > 0) met.delay += 1;

  const gate = (limit: number, what: 'cutUp' | 'cutDown'): Gate => {
    let through = 0;
    return async (piece) => {
      if (fate.lateness > 0) await pause(fate.lateness);
      if (isStalled) return null;
      if (passed + piece.length > fate.stallBytes) {
        void stall();
        return null;
      }
      const rest = limit - through;
      passed += piece.length;
      through += piece.length;
      if (piece.length < rest) return piece;
      met[what] += 1;
      // What went before the cut has to arrive, or the cut would always be at the start of a piece.
      setTimeout(cut, 1);
      return piece.subarray(0, rest);
    };
  };
  return { up: gate(fate.upBytes, 'cutUp'), down: gate(fate.downBytes, 'cutDown') };
}

async function pass(from: Socket, to: Socket, gate: Gate, see: (piece: Buffer) => void): Promise<void> {
  try {
    // A stalled socket is left open when its reader stops.
    for await (const piece of from.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
      see(piece);
      const through = await gate(piece);
      if (through === null) return;
      if (through.length > 0 && !to.write(through))
        await Promise.race([once(to, 'drain'), once(to, 'close')]);
      if (through.length < piece.length) return;
    }
    to.end();
  } catch {
    to.destroy();
  }
}

/** A cable pulled out (reset) or a connection closed in good order. */
function end(socket: Socket, isReset: boolean): void {
  if (isReset) socket.resetAndDestroy();
  else socket.destroy();
}
