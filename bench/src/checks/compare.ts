import type { Computed } from './evaluator.ts';
import type { Limit } from './tolerance.ts';

/**
 * Where a computed result leaves the expected one: paths and both numbers; empty where it holds.
 *
 * Every number, word and list element that is expected must be there; a result may hold more.
 */
export const differences = (
  expected: unknown,
  computed: Computed | undefined,
  limit: Limit,
  path = '',
  key = '',
): readonly string[] => {
  if (typeof expected === 'number') {
    const holds = typeof computed === 'number' && Math.abs(computed - expected) <= limit(expected, key);
    return holds ? [] : [`${path}expected ${expected}, computed ${JSON.stringify(computed)}`];
  }
  if (Array.isArray(expected)) {
    if (!Array.isArray(computed) || computed.length !== expected.length)
      return [`${path}expected ${expected.length} values, computed ${JSON.stringify(computed)}`];
    return expected.flatMap((one, i) => differences(one, computed[i], limit, `${path}[${i}] `, key));
  }
  if (typeof expected === 'object' && expected !== null) {
    if (typeof computed !== 'object' || computed === null || Array.isArray(computed))
      return [`${path}expected ${Object.keys(expected).join(', ')}, computed ${JSON.stringify(computed)}`];
    return Object.entries(expected).flatMap(([name, one]) =>
      differences(one, (computed as Record<string, Computed>)[name], limit, `${path}${name} `, name),
    );
  }
  return expected === computed
    ? []
    : [`${path}expected ${JSON.stringify(expected)}, computed ${JSON.stringify(computed)}`];
};

/** The same expectation with every number moved by so many of its limits: what a wrong sheet would say. */
export const shifted = (expected: unknown, limit: Limit, by: number, key = ''): unknown => {
  if (typeof expected === 'number') return expected + by * (limit(expected, key) || Number.EPSILON);
  if (Array.isArray(expected)) return expected.map((one) => shifted(one, limit, by, key));
  if (typeof expected === 'object' && expected !== null)
    return Object.fromEntries(
      Object.entries(expected).map(([name, one]) => [name, shifted(one, limit, by, name)]),
    );
  return typeof expected === 'string' ? `${expected}'` : !expected;
};
