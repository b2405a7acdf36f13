import { digest } from '@firnbook/journal';
import { type Random, seeded } from '@firnbook/science/random';
import { describe, expect, it } from 'vitest';
import { below, bring, type Carrier, draft, openCarrier, peersOf, reopened, write } from './season.suite.ts';
import { choose } from './write.ts';

/** What a history may break on purpose. */
interface Mutant {
  /** A device writes only what it said itself. */
  readonly isOwnOnly?: true;
  /** A device takes corrections without their targets. */
  readonly leave?: false;
}

/** How often each trouble came up over all histories. */
const met = { lost: 0, twice: 0, old: 0, torn: 0, changed: 0, answers: 0, setBack: 0, cloned: 0, gone: 0 };

const pick = <T>(random: Random, list: readonly T[]): T => list[below(random, list.length)]!;
const chance = (random: Random, probability: number) => random.uniform() < probability;

/** A file chosen for whom its writer last heard of, or with everything. */
const fileFor = (from: Carrier, to: Carrier, mutant: Mutant): Promise<Uint8Array> => {
  const peer = peersOf(from).find(({ device }) => device === to.replica.device) ?? null;
  if (peer !== null) met.answers += 1;
  const own: typeof choose = (ledger, have) =>
    choose(ledger, have).filter(({ header }) => header.device === from.replica.device);
  return write(from, peer, mutant.isOwnOnly ? { choose: own } : {});
};

const spoiled = (random: Random, file: Uint8Array): Uint8Array => {
  const at = below(random, file.length);
  if (chance(random, 0.5)) {
    met.torn += 1;
    return file.subarray(0, at);
  }
  met.changed += 1;
  const changed = Uint8Array.from(file);
  changed.fill(below(random, 256), at, at + 1 + below(random, 300));
  return changed;
};

/**
 * Two to five devices that never meet but by files: these are lost, brought twice, old, torn or changed, in any order;
 * some device is set back to an older copy of itself, cloned, or destroyed. At the end everybody brings what
 * everybody else writes, twice.
 *
 * @returns what is wrong at the end; null where nothing
 */
const history = async (seed: number, mutant: Mutant = {}): Promise<string | null> => {
  const random = seeded(seed);
  const crew: Carrier[] = [];
  for (let count = 2 + below(random, 4); crew.length < count; )
    crew.push(await openCarrier(`Tablet ${crew.length + 1}`, random));
  const pile: { readonly file: Uint8Array; isBrought: boolean }[] = [];
  const backups: { readonly of: number; readonly disk: Carrier['disk'] }[] = [];
  const rules = mutant.leave === undefined ? {} : { leave: mutant.leave };
  const tryToBring = async (carrier: Carrier, file: Uint8Array) => {
    // A file whose first line is gone is refused as a whole.
    await bring(carrier, file, rules).catch(() => null);
    return carrier.replica.ledger.waiting().length === 0;
  };

  for (let step = 0; step < 30; step += 1) {
    const at = below(random, crew.length);
    const one = crew[at]!;
    const what = random.uniform();
    if (what < 0.35) {
      const here = one.replica.ledger.entries();
      const isCorrection = here.length > 0 && chance(random, 0.4);
      const more = isCorrection ? { corrects: [pick(random, here).header.id], reason: 'misread' } : {};
      await one.replica.write([draft(random, more), ...(chance(random, 0.3) ? [draft(random)] : [])]);
    } else if (what < 0.6) {
      pile.push({ file: await fileFor(one, pick(random, crew), mutant), isBrought: false });
    } else if (what < 0.88 && pile.length > 0) {
      const stick = pick(random, pile);
      if (stick.isBrought) met.twice += 1;
      else if (stick !== pile.at(-1)) met.old += 1;
      stick.isBrought = true;
      const file = chance(random, 0.25) ? spoiled(random, stick.file) : stick.file;
      if (!(await tryToBring(one, file))) return 'a correction came without its target';
      if (chance(random, 0.2)) pile.splice(pile.indexOf(stick), 1);
    } else if (what < 0.92) {
      const { disk } = one;
      backups.push({ of: at, disk: { ...disk, rows: [...disk.rows], notes: new Map(disk.notes) } });
    } else if (what < 0.95) {
      const backup = backups.findLast(({ of }) => of === at);
      if (backup === undefined) continue;
      met.setBack += 1;
      crew[at] = await reopened(one, backup.disk, `life-${seed}-${step}`, random, one.name);
    } else if (what < 0.97 && crew.length < 5) {
      met.cloned += 1;
      crew.push(await reopened(one, one.disk, one.disk.epoch, random, `${one.name}, copied`));
    } else if (what < 0.985 && crew.length > 2) {
      met.gone += 1;
      crew.splice(at, 1);
      backups.length = 0;
    }
  }
  met.lost += pile.filter(({ isBrought }) => !isBrought).length;

  for (let round = 0; round < 2; round += 1) {
    for (const from of crew) {
      for (const to of crew) {
        if (from === to) continue;
        if (!(await tryToBring(to, await fileFor(from, to, mutant))))
          return 'a correction came without its target';
      }
    }
  }
  const digests = new Set(crew.map(({ replica }) => digest(replica.ledger)));
  return digests.size === 1 ? null : 'the devices do not hold the same';
};

/** Runs histories until one goes wrong. */
const firstWrong = async (count: number, mutant: Mutant = {}): Promise<string | null> => {
  for (let seed = 1; seed <= count; seed += 1) {
    const wrong = await history(seed, mutant);
    if (wrong !== null) return `history ${seed}: ${wrong}`;
  }
  return null;
};

describe('devices that only exchange files', () => {
  it('hold the same after the last round, whatever happened to the files before', async () => {
    expect(await firstWrong(150)).toBeNull();
    // Every trouble was really met.
    for (const [trouble, count] of Object.entries(met)) expect(count, trouble).toBeGreaterThan(10);
  }, 60_000);

  it('control: a device that writes only its own entries is found out', async () => {
    expect(await firstWrong(150, { isOwnOnly: true })).toContain('do not hold the same');
  }, 60_000);

  it('control: a device that takes corrections without their targets is found out', async () => {
    expect(await firstWrong(300, { leave: false })).toContain('without its target');
  }, 60_000);
});
