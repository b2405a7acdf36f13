/** Round heights in metres from `least` to `most`: some 3 to 7 of them, whole steps of 1, 2 or 5 and a power of ten. */
export function levelTicks(least: number, most: number): readonly number[] {
  const wish = (most - least) / 5;
  const power = 10 ** Math.floor(Math.log10(wish));
  const step = power * ([1, 2, 5, 10].find((one) => one * power >= wish * (1 - 1e-9)) ?? 10);
  const first = Math.ceil(least / step - 1e-9);
  const last = Math.floor(most / step + 1e-9);
  // A zero that is minus nothing is written as one.
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => (first + at) * step || 0);
}
