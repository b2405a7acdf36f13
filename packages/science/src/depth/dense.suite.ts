/** One equation: sum of coefficients times unknowns = value, with this standard deviation. */
export interface Row {
  readonly terms: readonly (readonly [string, number])[];
  readonly value: number;
  readonly sd: number;
}

/**
 * General least squares, dense, Gauss-Newton: normal equations by Gauss-Jordan with pivoting. Written without anything of
 * the solver.
 *
 * @param rows equations linearised at a point (an unknown that has no value yet is 0)
 */
export const leastSquares = (rows: (at: (name: string) => number) => readonly Row[], passes = 8) => {
  const names = new Map<string, number>();
  const index = (name: string): number => {
    const found = names.get(name);
    if (found !== undefined) return found;
    names.set(name, names.size);
    return names.size - 1;
  };
  const point = new Map<string, number>();
  let inverse: number[][] = [];
  let solution: number[] = [];
  for (let pass = 0; pass < passes; pass++) {
    const all = rows((name) => point.get(name) ?? 0);
    for (const { terms } of all) for (const [name] of terms) index(name);
    const n = names.size;
    const normal = Array.from({ length: n }, () => new Array<number>(2 * n + 1).fill(0));
    for (const { terms, value, sd } of all)
      for (const [name, x] of terms) {
        const line = normal[index(name)];
        for (const [other, y] of terms) line[index(other)] += (x * y) / sd ** 2;
        line[2 * n] += (x * value) / sd ** 2;
      }
    normal.forEach((line, i) => {
      line[n + i] = 1;
    });
    for (let i = 0; i < n; i++) {
      let pivot = i;
      for (let j = i + 1; j < n; j++) if (Math.abs(normal[j][i]) > Math.abs(normal[pivot][i])) pivot = j;
      [normal[i], normal[pivot]] = [normal[pivot], normal[i]];
      const by = normal[i][i];
      for (let c = i; c <= 2 * n; c++) normal[i][c] /= by;
      for (let j = 0; j < n; j++) {
        const times = normal[j][i];
        if (j === i || times === 0) continue;
        for (let c = i; c <= 2 * n; c++) normal[j][c] -= times * normal[i][c];
      }
    }
    inverse = normal.map((line) => line.slice(n, 2 * n));
    solution = normal.map((line) => line[2 * n]);
    for (const [name, i] of names) point.set(name, solution[i]);
  }
  return {
    value: (name: string): number => solution[index(name)],
    sd: (name: string): number => Math.sqrt(inverse[index(name)][index(name)]),
  };
};
