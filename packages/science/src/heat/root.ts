/**
 * Where a continuous function with different signs at both ends is 0: regula falsi with the Illinois weights, every
 * third step by halving. Ends when the bracket is as small as doubles allow.
 *
 * @param low, high their values of f must differ in sign
 */
export const rootBetween = (f: (x: number) => number, low: number, high: number): number => {
  let [a, b] = [low, high];
  let [fa, fb] = [f(a), f(b)];
  if (fa === 0) return a;
  if (fb === 0) return b;
  for (let step = 0; step < 200; step++) {
    const width = b - a;
    const middle = a + width / 2;
    // every third step halves, so that no bracket shrinks more slowly than by a third power of 2
    const secant = a - (fa * width) / (fb - fa);
    const x = step % 3 === 2 || !(secant > a && secant < b) ? middle : secant;
    const fx = f(x);
    if (fx === 0 || x === a || x === b || width <= 4e-16 * Math.abs(b)) return x;
    if (fx < 0 === fa < 0) {
      [a, fa] = [x, fx];
      fb /= 2;
    } else {
      [b, fb] = [x, fx];
      fa /= 2;
    }
  }
  return a + (b - a) / 2;
};
