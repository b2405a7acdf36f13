import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { offsetOf } from './offset.ts';
import { fromComposite, joinRecords, type Splice, toComposite } from './splices.ts';

const splice = (of: string, on: string, value: number, sd: number): Splice => ({
  id: `${of} on ${on}`,
  of,
  on,
  offset: { value, sd },
});

describe('joinRecords', () => {
  it('two holes spliced: horizons at known depths in both give composite depths known by hand', () => {
    // invented: hole B was begun after 42 cm of snow had fallen on the zero of hole A
    const pairs = [
      [12.73, 12.31],
      [25.53, 25.1],
      [40.43, 40.02],
    ].map(([of, on]) => ({ of: { value: of, sd: 0.006 }, on: { value: on, sd: 0.008 } }));
    const joined = joinRecords([{ id: 's', of: 'B', on: 'A', offset: offsetOf(pairs).offset }], 'A');
    const depth = toComposite(joined, 'B', { value: 30.42, sd: 0.02 });
    expect(depth.value).toBeCloseTo(30, 10);
    // 2 cm of its own and 1 cm / sqrt(3) of the splice
    expect(depth.sd).toBeCloseTo(Math.sqrt(0.02 ** 2 + 0.01 ** 2 / 3), 10);
    expect(joined.loops).toEqual([]);
  });

  it('a pit, a hand-augered top and a hole in a chain: offsets add up, and so do variances', () => {
    const joined = joinRecords(
      [splice('auger', 'pit', 0.05, 0.03), splice('A', 'auger', -0.32, 0.04), splice('B', 'A', 0.4, 0.12)],
      'pit',
    );
    const at = (name: string) => joined.offsets.get(name);
    expect(at('pit')).toEqual({ value: 0, sd: 0 });
    expect(at('A')?.value).toBeCloseTo(-0.27, 12);
    expect(at('A')?.sd).toBeCloseTo(0.05, 12);
    expect(at('B')?.value).toBeCloseTo(0.13, 12);
    expect(at('B')?.sd).toBeCloseTo(0.13, 12);
  });

  it('is the same whichever way round a splice is given', () => {
    const one = joinRecords([splice('A', 'pit', -0.3, 0.02)], 'pit').offsets.get('A');
    const other = joinRecords([splice('pit', 'A', 0.3, 0.02)], 'pit').offsets.get('A');
    expect(other?.value).toBeCloseTo(one?.value as number, 12);
    expect(other?.sd).toBeCloseTo(one?.sd as number, 12);
  });

  it('adjusts a loop that closes, and says what is left', () => {
    // three equal errors: the misclosure of 3 cm is shared, a third each
    const joined = joinRecords(
      [splice('B', 'A', 0.4, 0.02), splice('C', 'B', 0.1, 0.02), splice('C', 'A', 0.53, 0.02)],
      'A',
    );
    expect(joined.loops).toHaveLength(1);
    const [{ misclosure, closes, splices }] = joined.loops;
    expect(Math.abs(misclosure.value)).toBeCloseTo(0.03, 12);
    expect(misclosure.sd).toBeCloseTo(0.02 * Math.sqrt(3), 12);
    expect(closes).toBe(true);
    expect([...splices].sort()).toEqual(['B on A', 'C on A', 'C on B']);
    expect(joined.offsets.get('B')?.value).toBeCloseTo(0.41, 12);
    expect(joined.offsets.get('C')?.value).toBeCloseTo(0.52, 12);
    // A loop of three equal splices: variance 2/3 of one (two ways, of 1 and of 2 splices)
    expect(joined.offsets.get('C')?.sd).toBeCloseTo(0.02 * Math.sqrt(2 / 3), 12);
  });

  it('a loop that does not close says so', () => {
    const { loops } = joinRecords(
      [splice('B', 'A', 0.4, 0.01), splice('C', 'B', 0.1, 0.01), splice('C', 'A', 1.5, 0.01)],
      'A',
    );
    expect(loops[0].closes).toBe(false);
    expect(Math.abs(loops[0].misclosure.value)).toBeCloseTo(1, 10);
  });

  it('two splices of the same two holes are a loop of two', () => {
    const { loops, offsets } = joinRecords(
      [splice('B', 'A', 0.4, 0.01), { ...splice('A', 'B', -0.44, 0.01), id: 'again' }],
      'A',
    );
    expect(loops[0].splices).toHaveLength(2);
    expect(Math.abs(loops[0].misclosure.value)).toBeCloseTo(0.04, 12);
    expect(offsets.get('B')?.value).toBeCloseTo(0.42, 12);
  });

  it('names records that nothing joins', () => {
    const joined = joinRecords([splice('B', 'A', 0.4, 0.01), splice('E', 'D', 0.2, 0.01)], 'A');
    expect(joined.apart).toEqual(['E', 'D']);
    expect(() => toComposite(joined, 'E', { value: 1, sd: 0 })).toThrow(/E is not joined to A/);
  });

  it('refuses a splice of a hole on itself and one without an error', () => {
    expect(() => joinRecords([splice('A', 'A', 0, 0.1)], 'A')).toThrow(/joins A to itself/);
    expect(() => joinRecords([splice('B', 'A', 0, 0)], 'A')).toThrow(/standard deviation above 0/);
  });

  it('loops of offsets made from true positions close, and the adjusted offsets are the true ones (fast-check)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 2, maxLength: 6 }),
        fc.array(fc.tuple(fc.nat(), fc.nat(), fc.double({ min: 0.005, max: 0.2, noNaN: true })), {
          maxLength: 12,
        }),
        (truth, ways) => {
          const name = (i: number) => `hole ${i}`;
          const splices = ways.flatMap(([a, b, sd], i) => {
            const [of, on] = [a % truth.length, b % truth.length];
            return of === on
              ? []
              : [{ id: `${i}`, of: name(of), on: name(on), offset: { value: truth[of] - truth[on], sd } }];
          });
          const { offsets, loops, apart } = joinRecords(splices, name(0));
          for (const loop of loops) {
            expect(Math.abs(loop.misclosure.value)).toBeLessThan(1e-9);
            expect(loop.closes).toBe(true);
          }
          for (const [record, offset] of offsets) {
            const i = Number(record.slice(5));
            expect(offset.value).toBeCloseTo(truth[i] - truth[0], 8);
          }
          // as many loops as splices beyond a tree
          const joined = splices.filter(({ of }) => offsets.has(of)).length;
          expect(loops).toHaveLength(joined - (offsets.size - 1));
          for (const record of apart) expect(offsets.has(record)).toBe(false);
        },
      ),
      { numRuns: 200, seed: 9 },
    );
  });
});

describe('fromComposite', () => {
  const joined = joinRecords([splice('A', 'auger', -0.3, 0.03), splice('B', 'A', 0.4, 0.04)], 'auger');
  const stack = [
    { record: 'auger', to: 2.5 },
    { record: 'A', to: 60 },
    { record: 'B', to: Number.POSITIVE_INFINITY },
  ];

  it('reads each depth from the record that counts there', () => {
    expect(fromComposite(joined, stack, { value: 2, sd: 0 })).toEqual({
      record: 'auger',
      depth: { value: 2, sd: 0 },
    });
    const middle = fromComposite(joined, stack, { value: 30, sd: 0.04 });
    expect(middle.record).toBe('A');
    expect(middle.depth.value).toBeCloseTo(29.7, 12);
    expect(middle.depth.sd).toBeCloseTo(0.05, 12);
    expect(fromComposite(joined, stack, { value: 80, sd: 0 }).depth.value).toBeCloseTo(80.1, 12);
  });

  it('and back is the depth that it came from', () => {
    for (const value of [1, 2.5, 44.4, 99]) {
      const { record, depth } = fromComposite(joined, stack, { value, sd: 0 });
      expect(toComposite(joined, record, depth).value).toBeCloseTo(value, 12);
    }
  });

  it('refuses records out of order, or none', () => {
    expect(() => fromComposite(joined, [...stack].reverse(), { value: 1, sd: 0 })).toThrow(
      /put the records in order/,
    );
    expect(() => fromComposite(joined, [], { value: 1, sd: 0 })).toThrow(/no records/);
  });
});
