import { describe, expect, it } from 'vitest';
import { digest } from './digest.ts';
import type { Reply, Request } from './exchange.ts';
import { copyMemoryDisk, createMemoryStore } from './memory-store.ts';
import { openReplica, type Replica } from './replica.ts';
import { inventedDraft } from './simulation/invented.ts';
import { exchange, pair, source } from './simulation/invented-pair.ts';

/** A message as a program from before differences says or reads it. */
function asBefore<Message extends Request | Reply>(message: Message): Message {
  const { mark, since, knows, forgot, ...known } = message as Message &
    Pick<Reply, 'mark' | 'since' | 'knows' | 'forgot'>;
  return known as Message;
}

function earlier(replica: Replica): Replica {
  return Object.assign(Object.create(replica), {
    ask: (peer: string) => asBefore(replica.ask(peer)),
    answer: async (request: Request) => asBefore(await replica.answer(asBefore(request))),
    hear: (peer: string, reply: Reply) => replica.hear(peer, asBefore(reply)),
  });
}

const again = (disk: Parameters<typeof createMemoryStore>[1], seed: number) =>
  openReplica(createMemoryStore('c', disk), source(seed));

describe('what both sides hold, said as a difference', () => {
  it('both ways once both have spoken: of two hundred devices only the one that wrote is named', async () => {
    const { tablet, server } = await pair();
    for (let device = 0; device < 200; device += 1) {
      await server.newDevice();
      await server.write([inventedDraft(`s${device}`)]);
    }
    await exchange(tablet, server);
    await exchange(tablet, server);
    const [entry] = await tablet.write([inventedDraft('a')]);
    const request = tablet.ask('camp');
    expect(Object.keys(request.have)).toEqual(['tablet']);
    const reply = await server.answer(request);
    expect(Object.keys(reply.have)).toEqual(['tablet']);
    await tablet.hear('camp', reply);
    expect(tablet.safety('camp').missing()).toEqual([]);
    expect(tablet.safety('camp').holds(entry!)).toBe(true);
    expect(server.safety('tablet').missing()).toEqual([]);
    const idle = tablet.ask('camp');
    expect(idle).toMatchObject({ have: {}, since: request.mark, knows: reply.mark });
  });

  it('is used once for each answer: a request after one that was lost says everything', async () => {
    const { tablet, server } = await pair();
    await tablet.write([inventedDraft('a')]);
    await exchange(tablet, server);
    expect(tablet.ask('camp').since).toBeDefined();
    expect(tablet.ask('camp').since).toBeUndefined();
  });

  it('a server that was started anew says that it forgot, believes what is named alone, and is told all', async () => {
    const { tablet, server, serverDisk } = await pair();
    const [old] = await tablet.write([inventedDraft('a')]);
    await server.write([inventedDraft('s')]);
    await exchange(tablet, server);
    const anew = await again(serverDisk, 9);
    const [late] = await tablet.write([inventedDraft('b')]);
    const request = tablet.ask('camp');
    expect(request.since).toBeDefined();
    const reply = await anew.answer({ ...request, have: {} });
    expect(reply).toMatchObject({ forgot: true, entries: [], more: true });
    expect(anew.safety('tablet').holds(old!)).toBe(false);
    const heard = await tablet.hear('camp', reply);
    expect(heard.again).toBe(true);
    expect(tablet.safety('camp').holds(late!)).toBe(true);
    expect(tablet.ask('camp').since).toBeUndefined();
    await exchange(tablet, anew);
    expect(anew.safety('tablet').holds(old!)).toBe(true);
  });

  it('I9: what a server knew before it was set back is worth nothing, whatever it says of it', async () => {
    const { tablet, server, serverDisk } = await pair();
    const backup = copyMemoryDisk(serverDisk, 's2');
    const [entry] = await tablet.write([inventedDraft('a')]);
    await exchange(tablet, server);
    const restored = await again(backup, 9);
    const request = tablet.ask('camp');
    const reply = await restored.answer(request);
    expect(reply.since).toBeUndefined();
    // And one that goes by a mark it once gave out.
    await tablet.hear('camp', { ...reply, have: {}, mark: request.knows!, since: request.knows! });
    expect(tablet.safety('camp')).toMatchObject({ epoch: 's2' });
    expect(tablet.safety('camp').holds(entry!)).toBe(false);
  });

  it('two machines with one name (a copied profile): neither is taken for the other', async () => {
    const { tablet, server, tabletDisk } = await pair();
    await tablet.write([inventedDraft('a')]);
    await exchange(tablet, server);
    const copy = await again(copyMemoryDisk(tabletDisk, 't1'), 8);
    await server.write([inventedDraft('b')]);
    await exchange(copy, server);
    await exchange(copy, server);
    // The server knows of the copy what the tablet does not hold.
    const reply = await server.answer(tablet.ask('camp'));
    expect(reply.forgot).toBe(true);
    await tablet.hear('camp', reply);
    await exchange(tablet, server);
    expect(digest(tablet.ledger)).toBe(digest(server.ledger));
  });
});

describe('rule 16: with programs from before differences', () => {
  it.each([
    ['an earlier tablet', 'tablet'],
    ['an earlier server', 'server'],
  ])('%s gets and gives everything', async (_, which) => {
    const { tablet, server } = await pair();
    const [a, b] = which === 'tablet' ? [earlier(tablet), server] : [tablet, earlier(server)];
    for (let round = 0; round < 4; round += 1) {
      await tablet.write([inventedDraft(`t${round}`)]);
      await server.write([inventedDraft(`s${round}`)]);
      await exchange(a, b);
      expect(tablet.ask('camp').since).toBeUndefined();
      expect(digest(tablet.ledger)).toBe(digest(server.ledger));
      expect(tablet.safety('camp').missing()).toEqual([]);
    }
  });

  it('a server that was set back to an earlier program takes a difference for less than is held, and nothing breaks', async () => {
    const { tablet, server, serverDisk } = await pair();
    const [target] = await tablet.write([inventedDraft('a')]);
    await server.write([inventedDraft('s')]);
    await exchange(tablet, server);
    await tablet.write([inventedDraft('b', { corrects: [target!.header.id], reason: 'read again' })]);
    const before = earlier(await again(serverDisk, 9));
    const request = tablet.ask('camp');
    expect(request.since).toBeDefined();
    const reply = await before.answer(request);
    expect(reply.refused).toEqual([]);
    await tablet.hear('camp', reply);
    await exchange(tablet, before);
    expect(digest(tablet.ledger)).toBe(digest(before.ledger));
    expect(tablet.safety('camp').missing()).toEqual([]);
  });
});
