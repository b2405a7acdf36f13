/** What benchmarks say of many measurements. */

export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

export function percentile99(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length * 0.99)] ?? Number.NaN;
}

export const round2 = (value: number): number => Math.round(value * 100) / 100;
