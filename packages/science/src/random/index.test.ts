import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { seeded, streams } from './index.ts';

/** D. Blackman & S. Vigna's reference code of xoroshiro128+ (2018, rotations 24, 16, 37), with whole numbers. */
const reference = (s0: bigint, s1: bigint) => {
  const mask = (1n << 64n) - 1n;
  const turn = (x: bigint, by: bigint) => ((x << by) | (x >> (64n - by))) & mask;
  let a = s0;
  let b = s1;
  const step = () => {
    const out = (a + b) & mask;
    b ^= a;
    a = (turn(a, 24n) ^ b ^ (b << 16n)) & mask;
    b = turn(b, 37n);
    return Number(BigInt.asIntN(32, out));
  };
  /** 2^64 steps at once: the state is the sum, without carry, of those at the set bits of the authors' polynomial. */
  const jump = () => {
    let [c, d] = [0n, 0n];
    for (const word of [0xdf900294d8f554a5n, 0x170865df4b3201fcn])
      for (let bit = 0n; bit < 64n; bit++) {
        if ((word >> bit) & 1n) {
          c ^= a;
          d ^= b;
        }
        step();
      }
    [a, b] = [c, d];
  };
  return { step, jump };
};

describe('the generator beneath', () => {
  it('gives the low half of the reference code of xoroshiro128+', () => {
    const stream = xoroshiro128plusFromState([0x01234567, 0x89abcdef | 0, 0x0fedcba9, 0x76543210]);
    const want = reference(0x0123456789abcdefn, 0x0fedcba976543210n);
    for (let i = 0; i < 1000; i++) expect(stream.next()).toBe(want.step());
  });
  it('jumps as the reference code does', () => {
    const stream = xoroshiro128plusFromState([0x01234567, 0x89abcdef | 0, 0x0fedcba9, 0x76543210]);
    const want = reference(0x0123456789abcdefn, 0x0fedcba976543210n);
    stream.jump();
    want.jump();
    for (let i = 0; i < 100; i++) expect(stream.next()).toBe(want.step());
  });
  it('is a function of its seed', () => {
    expect(xoroshiro128plus(5).next()).toBe(xoroshiro128plus(5).next());
  });
});

describe('seeded', () => {
  const moments = (draw: () => number, n = 200_000) => {
    let mean = 0;
    let square = 0;
    for (let i = 0; i < n; i++) {
      const x = draw();
      mean += x / n;
      square += (x * x) / n;
    }
    return { mean, variance: square - mean * mean };
  };
  it('repeats itself, and differs for another seed', () => {
    expect(seeded(11).normal()).toBe(seeded(11).normal());
    expect(seeded(11).normal()).not.toBe(seeded(12).normal());
  });
  it('has the moments of its distributions (200,000 draws, 5 standard errors)', () => {
    const uniform = moments(seeded(1).uniform);
    expect(Math.abs(uniform.mean - 0.5)).toBeLessThan(0.0033);
    expect(Math.abs(uniform.variance - 1 / 12)).toBeLessThan(0.0009);
    const normal = moments(seeded(2).normal);
    expect(Math.abs(normal.mean)).toBeLessThan(0.0112);
    expect(Math.abs(normal.variance - 1)).toBeLessThan(0.016);
    const exponential = moments(seeded(3).exponential);
    expect(Math.abs(exponential.mean - 1)).toBeLessThan(0.0112);
    expect(Math.abs(exponential.variance - 1)).toBeLessThan(0.032);
    const t = seeded(4);
    const student = moments(() => t.studentT(8));
    expect(Math.abs(student.mean)).toBeLessThan(0.013);
    expect(Math.abs(student.variance - 8 / 6)).toBeLessThan(0.05);
  });
  it('draws from neighbouring seeds are unrelated', () => {
    let product = 0;
    for (let seed = 1; seed <= 4000; seed++) product += seeded(seed).normal() * seeded(seed + 1).normal();
    expect(Math.abs(product / 4000)).toBeLessThan(5 / Math.sqrt(4000));
  });
});

describe('streams', () => {
  it('the first is that of the seed, the others are unrelated to it and to each other', () => {
    const [first, second, third] = streams(9, 3);
    const own = seeded(9);
    let [ab, bc] = [0, 0];
    for (let i = 0; i < 20_000; i++) {
      const [a, b, c] = [first.normal(), second.normal(), third.normal()];
      expect(a).toBe(own.normal());
      ab += a * b;
      bc += b * c;
    }
    expect(Math.abs(ab)).toBeLessThan(5 * Math.sqrt(20_000));
    expect(Math.abs(bc)).toBeLessThan(5 * Math.sqrt(20_000));
  });
  it('does not depend on what was drawn from the one before', () => {
    const [drawn] = streams(4, 2);
    drawn.normal();
    expect(streams(4, 2)[1].uniform()).toBe(streams(4, 3)[1].uniform());
  });
});
