/** A complex number: real and imaginary part. */
export type Complex = readonly [re: number, im: number];

export const add = (...terms: readonly Complex[]): Complex => [
  terms.reduce((sum, [re]) => sum + re, 0),
  terms.reduce((sum, [, im]) => sum + im, 0),
];

export const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];

export const scaled = ([re, im]: Complex, by: number): Complex => [re * by, im * by];

export const inverse = ([re, im]: Complex): Complex => {
  const square = re * re + im * im;
  return [re / square, -im / square];
};

/** Principal value. */
export const log = ([re, im]: Complex): Complex => [Math.log(Math.hypot(re, im)), Math.atan2(im, re)];
