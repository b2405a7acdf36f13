import { describe, expect, it } from 'vitest';
import { createInspector, type Violation } from './checks.ts';
import { inventedChain, inventedEntry } from './invented.ts';
import { HONEST } from './mutants.ts';
import { createWorld, signatureBy, type World } from './world.ts';

// Each check is shown to notice what it is for: a violation is planted by hand.
async function ruleBrokenBy(
  plant: (world: World) => void,
  doing: 'disk' | 'peace' = 'disk',
): Promise<string> {
  const world = await createWorld(1, HONEST);
  const inspector = createInspector(world);
  plant(world);
  try {
    if (doing === 'disk') inspector.disk(world.server);
    else inspector.peace();
  } catch (error) {
    return (error as Violation).rule;
  }
  return 'none';
}

const chain = inventedChain('d', 3).map((entry) => entry.sealed);

const key = 'a-key'.padEnd(43, 'A');
const stating = inventedEntry({ device: 's', key });
const signed = [stating, inventedEntry({ device: 's', sequence: 2, previous: stating.hash })].map(
  ({ sealed }) => ({
    ...sealed,
    signature: signatureBy(key, sealed.head),
  }),
);

describe('createInspector', () => {
  it.each([
    ['none', chain],
    ['J2', [chain[0]!, chain[0]!]],
    ['I5', [chain[0]!, chain[2]!]],
    ['I5', [chain[0]!, inventedEntry({ device: 'd' }, { id: 'again' }).sealed]],
    ['I2', [chain[0]!, inventedEntry({ device: 'e' }, { id: 'd-1-' }).sealed]],
    ['I4', [inventedEntry({ device: 'e' }, { id: 'c', corrects: ['gone'] }).sealed]],
    ['none', signed],
    ['J9', [{ ...signed[0]!, signature: signed[1]!.signature }]],
    ['J9', [signed[0]!, { ...signed[1]!, signature: null }]],
    [
      'I4',
      [chain[0]!, inventedEntry({ device: 'a' }, { id: 'c', corrects: ['d-1-'] }).sealed].map((one, at) =>
        at === 0
          ? one
          : inventedEntry({ device: 'a', stamp: '000000000000000-000001' }, { id: 'c', corrects: ['d-1-'] })
              .sealed,
      ),
    ],
  ])('reports %s for the rows planted', async (rule, rows) => {
    expect(await ruleBrokenBy((world) => world.server.disk.rows.push(...rows))).toBe(rule);
  });

  it('I1: reports an entry that was saved and is missing somewhere', async () => {
    const [entry] = inventedChain('d', 1);
    expect(await ruleBrokenBy((world) => world.saved.set(entry!.hash, entry!), 'peace')).toBe('I1');
  });

  it('I3: reports machines that hold different entries', async () => {
    expect(await ruleBrokenBy((world) => world.server.disk.rows.push(chain[0]!), 'peace')).toBe('I3');
  });

  it('I6: reports a ledger that shows less than the disk holds', async () => {
    const plant = (world: World) => {
      for (const one of [world.server, ...world.tablets]) one.disk.rows.push(chain[0]!);
    };
    expect(await ruleBrokenBy(plant, 'peace')).toBe('I6');
  });
});
