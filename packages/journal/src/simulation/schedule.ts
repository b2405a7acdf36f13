import { digestOf } from '../digest.ts';
import type { Header, Sealed } from '../entry.ts';
import type { Reply, Request } from '../exchange.ts';
import { copyMemoryDisk, createMemoryDisk, type MemoryFault } from '../memory-store.ts';
import { readReply, readRequest } from '../wire.ts';
import { createInspector, type Inspector, Violation } from './checks.ts';
import { HONEST, type Mutant } from './mutants.ts';
import {
  boot,
  CAMP,
  createWorld,
  forgetWhatIsGone,
  type Machine,
  type Message,
  machine,
  newKey,
  nextDrafts,
  setClock,
  type Tab,
  type World,
} from './world.ts';

export interface Outcome {
  readonly seed: number;
  readonly violation: { readonly rule: string; readonly what: string } | null;
  /** Faults this history met, by name. */
  readonly met: ReadonlySet<string>;
  readonly entries: number;
  /** Exchanges that the slowest tablet needed in the healing. */
  readonly exchanges: number;
  /** Of the server's journal at the end. */
  readonly digest: string;
}

/** Exchanges a tablet may need once everything works again. */
export const HEALING_LIMIT = 30;

/**
 * One invented history, wholly decided by its seed: people write, machines exchange, and things go wrong; then
 * everything works again and all must hold the same. Runs the real replica and exchange code over memory stores,
 * in one thread. A seed replays the same history step by step.
 */
export async function runSchedule(seed: number, mutant: Mutant = HONEST): Promise<Outcome> {
  const world = await createWorld(seed, mutant);
  const inspector = createInspector(world);
  let exchanges = 0;
  let violation: Outcome['violation'] = null;
  try {
    const steps = 30 + world.random.below(40);
    for (let step = 0; step < steps; step += 1) {
      world.time += world.random.below(60_000);
      await takeStep(world, inspector);
      for (const one of [world.server, ...world.tablets]) inspector.disk(one);
    }
    exchanges = await heal(world, inspector);
    inspector.peace();
  } catch (error) {
    if (!(error instanceof Violation)) throw new Error(`Seed ${seed}: ${String(error)}`, { cause: error });
    violation = { rule: error.rule, what: error.message };
  }
  const digest = digestOf(world.server.disk.rows.map((row) => row.hash));
  return { seed, violation, met: world.met, entries: world.count, exchanges, digest };
}

async function takeStep(world: World, inspector: Inspector): Promise<void> {
  const { random } = world;
  const dice = random.next();
  if (dice < 0.3)
    await write(world, random.chance(0.12) ? world.server : random.pick(world.tablets), inspector);
  else if (dice < 0.49) ask(world, random.pick(world.tablets));
  else if (dice < 0.55) await visit(world, random.pick(world.tablets), inspector);
  else if (dice < 0.84) await deliver(world, inspector);
  else if (dice < 0.88) look(world);
  else await misfortune(world, inspector);
}

async function write(world: World, one: Machine, inspector: Inspector): Promise<void> {
  const tab = world.random.pick(one.tabs);
  const drafts = nextDrafts(world, tab);
  try {
    const entries = await tab.replica.write(drafts);
    for (const entry of entries) world.saved.set(entry.hash, entry);
    inspector.saved(one, entries);
  } catch (error) {
    if (error instanceof Violation) throw error;
    // Refused or of unknown fate: nobody was told "saved".
  }
  inspector.disk(one);
}

function ask(world: World, from: Machine): void {
  const { random } = world;
  const others = world.tablets.filter((one) => one !== from);
  const isSideways = others.length > 0 && random.chance(0.15);
  const to = isSideways ? random.pick(others) : world.server;
  if (isSideways) world.met.add('tablet to tablet');
  const tab = random.below(from.tabs.length);
  const peer = to.isServer ? CAMP : to.name;
  const request = forProgram(from, from.tabs[tab]!.replica.ask(peer));
  post(world, { to, from, peer, tab, text: { request } });
}

/** A tablet in reach of the server: it exchanges a few times in a row, while its person and the others go on writing. */
async function visit(world: World, one: Machine, inspector: Inspector): Promise<void> {
  const { random, server, messages } = world;
  const tab = random.below(one.tabs.length);
  for (let turn = 0; turn < 3; turn += 1) {
    const request = forProgram(one, one.tabs[tab]!.replica.ask(CAMP));
    const under = messages.length;
    await receive(world, { to: server, from: one, peer: CAMP, tab, text: { request } }, inspector);
    for (const reply of messages.splice(under)) await receive(world, reply, inspector);
    if (random.chance(0.5)) await write(world, random.chance(0.5) ? one : server, inspector);
  }
}

function post(world: World, message: Message): void {
  const { random } = world;
  if (random.chance(world.loss)) {
    world.met.add('loss');
    return;
  }
  world.messages.push(random.chance(0.12) ? damaged(world, message) : message);
  if (random.chance(0.1)) {
    world.messages.push(message);
    world.met.add('duplication');
  }
}

/**
 * One entry is changed on the way; what follows it in its chain must be refused with it. Not where another entry of
 * the message corrects one of these: that would be kept without its target, as J5 wants, and I4 asks for honest
 * messages only.
 */
function damaged(world: World, message: Message): Message {
  const half = ('request' in message.text ? message.text.request : message.text.reply) as Request | Reply;
  if (half.entries.length < 2) return message;
  const place = world.random.below(half.entries.length - 1);
  const headers = half.entries.map((sealed) => JSON.parse(sealed.head) as Header);
  const chain = headers.slice(place).filter((header) => header.device === headers[place]!.device);
  const targets = new Set(headers.flatMap((header) => header.corrects ?? []));
  if (chain.length < 2 || chain.some((header) => targets.has(header.id))) return message;
  world.met.add('damage on the way');
  const entries = half.entries.map((sealed, index) =>
    index === place ? changedEntry(world, sealed) : sealed,
  );
  const changed = { ...half, entries };
  return { ...message, text: 'request' in message.text ? { request: changed } : { reply: changed } };
}

function changedEntry(world: World, sealed: Sealed): Sealed {
  const { signature } = sealed;
  if (signature === null || world.random.chance(0.2))
    return { ...sealed, head: sealed.head.replace('"by":"kv"', '"by":"vk"') };
  const isStripped = world.random.chance(0.5);
  world.met.add(isStripped ? 'signature stripped' : 'signature changed');
  return { ...sealed, signature: isStripped ? null : `${signature.slice(0, -1)}Q` };
}

async function deliver(world: World, inspector: Inspector): Promise<void> {
  const { messages, random } = world;
  if (messages.length === 0) return;
  const index = random.chance(0.6) ? 0 : random.below(messages.length);
  if (index > 0) world.met.add('reordering');
  const [message] = messages.splice(index, 1);
  await receive(world, message!, inspector);
}

async function receive(world: World, message: Message, inspector: Inspector): Promise<void> {
  const { to, from, peer, tab, text } = message;
  const receiver = to.tabs[Math.min(tab, to.tabs.length - 1)]!;
  // A person may be writing at the same moment: both then share one group.
  const beside = world.random.chance(0.1) ? write(world, to, inspector) : null;
  try {
    if ('request' in text) {
      const request = readRequest(forProgram(to, text.request));
      if (!request.ok) throw new Violation('form', request.problem);
      const reply = forProgram(to, await receiver.replica.answer(request.value));
      if (reply.more) world.met.add('partial batch');
      if (request.value.since !== undefined) world.met.add('difference');
      if (reply.forgot === true) world.met.add('difference forgotten');
      if (request.value.knows !== undefined && reply.since === undefined)
        world.met.add('whole for a peer that knew more');
      post(world, { to: from, from: to, peer, tab, text: { reply } });
    } else {
      await hear(to, receiver, peer, text, inspector);
    }
  } catch (error) {
    if (error instanceof Violation) throw error;
  } finally {
    await beside;
  }
  inspector.disk(to);
}

/** What a machine's program says or reads of a message: one from before differences leaves out what it doesn't know. */
function forProgram<Text>(one: Machine, text: Text): Text {
  if (!one.isEarlier) return text;
  const { mark, since, knows, forgot, ...known } = text as Text &
    Pick<Reply, 'mark' | 'since' | 'knows' | 'forgot'>;
  return known as Text;
}

async function hear(
  one: Machine,
  tab: Tab,
  peer: string,
  text: Extract<Message['text'], { readonly reply: unknown }>,
  inspector: Inspector,
): Promise<void> {
  const reply = readReply(forProgram(one, text.reply));
  if (!reply.ok) throw new Violation('form', reply.problem);
  // A reply to an older question is not news; only what the replica now says it heard counts as heard.
  await tab.replica.hear(peer, reply.value);
  if (peer !== CAMP) return;
  const { epoch } = tab.replica.safety(CAMP);
  if (epoch === reply.value.epoch) tab.heard.add(epoch);
  one.noted = new Set(tab.heard);
  inspector.ticks(one, tab);
}

/** Somebody looks at a screen, so that states are folded at every stage of arrival. */
function look(world: World): void {
  for (const tab of world.random.pick([world.server, ...world.tablets]).tabs) {
    for (const thread of tab.book.threads()) tab.book.state(thread);
  }
}

async function misfortune(world: World, inspector: Inspector): Promise<void> {
  const { random, server, tablets, met } = world;
  const one = random.pick(tablets);
  switch (random.below(13)) {
    case 0:
      met.add('tablet crash');
      await startAgain(world, one);
      break;
    case 1:
      met.add('server crash');
      await startAgain(world, server);
      break;
    case 2:
      await crashInAppend(world, random.chance(0.7) ? one : server, inspector);
      break;
    case 3:
      world.backup = copyMemoryDisk(server.disk, server.disk.epoch);
      break;
    case 4:
      if (world.backup === null) world.backup = copyMemoryDisk(server.disk, server.disk.epoch);
      else await restore(world);
      break;
    case 5:
      await destroy(world, one);
      break;
    case 6:
      await clone(world, one);
      break;
    case 7:
      setClock(world, random.chance(0.8) ? one : server);
      met.add('clock jump');
      break;
    case 8:
      one.isFull = !one.isFull;
      if (one.isFull) met.add('disk full');
      break;
    case 9:
      // The append fails or seems to; the process goes on.
      one.nextFault = random.pick<MemoryFault>(['refused', 'kept']);
      met.add('unknown fate');
      await write(world, one, inspector);
      break;
    case 10:
      one.cannotSign = true;
      met.add('signing fails');
      await write(world, one, inspector);
      break;
    case 11:
      one.key = one.key === null || random.chance(0.7) ? newKey(world) : null;
      met.add('another key');
      await boot(world, one);
      break;
    default:
      if (world.messages.length > 0) {
        world.messages.splice(random.below(world.messages.length), 1);
        met.add('loss');
      }
  }
}

/** After a crash, and sometimes because somebody puts a newer program in or goes back to the one before. */
async function startAgain(world: World, one: Machine): Promise<void> {
  if (world.random.chance(0.3)) {
    one.isEarlier = !one.isEarlier;
    world.met.add('other program put in');
  }
  await boot(world, one);
}

async function crashInAppend(world: World, one: Machine, inspector: Inspector): Promise<void> {
  world.met.add('crash while storing');
  one.nextFault = world.random.pick<MemoryFault>(['refused', 'kept']);
  await write(world, one, inspector);
  one.nextFault = null;
  await boot(world, one);
}

async function restore(world: World): Promise<void> {
  world.met.add('old backup restored');
  world.count += 1;
  const { server, backup, mutant } = world;
  server.disk = copyMemoryDisk(backup!, mutant.keepsEpoch === true ? backup!.epoch : `camp-${world.count}`);
  await boot(world, server);
  forgetWhatIsGone(world);
}

async function destroy(world: World, one: Machine): Promise<void> {
  world.met.add('tablet destroyed');
  world.count += 1;
  one.disk = createMemoryDisk(`t-${world.count}`);
  one.noted = new Set();
  one.isFull = false;
  one.key = world.random.chance(0.7) ? newKey(world) : null;
  await boot(world, one);
  forgetWhatIsGone(world);
}

async function clone(world: World, one: Machine): Promise<void> {
  if (world.tablets.length >= 5) return;
  world.met.add('tablet cloned');
  for (const tab of one.tabs) world.cloned.add(tab.replica.device);
  const copy = machine(`${one.name}-copy`, false, copyMemoryDisk(one.disk, one.disk.epoch));
  copy.skew = one.skew;
  copy.noted = one.noted;
  copy.key = one.key;
  world.tablets.push(copy);
  await boot(world, copy);
}

/** Everything works again: every tablet exchanges with the server until nothing moves. */
async function heal(world: World, inspector: Inspector): Promise<number> {
  world.messages.length = 0;
  world.limit.entries = 500;
  const everyone = [world.server, ...world.tablets];
  const isRestarted = world.random.chance(0.5);
  for (const one of everyone) {
    one.isFull = false;
    one.nextFault = null;
    if (isRestarted) await boot(world, one);
    for (const tab of one.tabs) await tab.replica.refresh();
  }
  const used = new Map<Machine, number>();
  const isEven = () => everyone.every((one) => one.disk.rows.length === world.server.disk.rows.length);
  // Once for everybody to bring, once to fetch; a clone that was found late needs one more.
  for (let pass = 0; pass < 2 || (pass < 4 && !isEven()); pass += 1) {
    for (const one of world.tablets) {
      for (let again = true; again; ) {
        again = await meet(world, one);
        const count = (used.get(one) ?? 0) + 1;
        used.set(one, count);
        if (count > HEALING_LIMIT)
          throw new Violation('I3', `${one.name} still exchanges after ${HEALING_LIMIT} turns`);
      }
    }
  }
  for (const one of everyone) {
    for (const tab of one.tabs) {
      await tab.replica.refresh();
      if (!one.isServer) inspector.ticks(one, tab);
    }
    inspector.disk(one);
  }
  return Math.max(...used.values());
}

async function meet(world: World, one: Machine): Promise<boolean> {
  const { replica } = one.tabs[0]!;
  const { server } = world;
  const request = readRequest(forProgram(server, forProgram(one, replica.ask(CAMP))));
  if (!request.ok) throw new Violation('form', request.problem);
  const answer = await server.tabs[0]!.replica.answer(request.value);
  const reply = readReply(forProgram(one, forProgram(server, answer)));
  if (!reply.ok) throw new Violation('form', reply.problem);
  const heard = await replica.hear(CAMP, reply.value);
  one.tabs[0]!.heard.add(replica.safety(CAMP).epoch ?? '');
  return heard.again;
}
