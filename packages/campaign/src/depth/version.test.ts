import { describe, expect, it } from 'vitest';
import { plainHole } from './plain-hole.suite.ts';
import { depthSources } from './readings.ts';
import { depthVersion, isWhole } from './version.ts';

describe('depthVersion', () => {
  it('holds what came out, of what, and by what; a changed reading is seen', () => {
    const { phone, solve } = plainHole();
    const { view, readings, solution } = solve();
    const version = depthVersion('v1', view.name, readings, solution, depthSources(view, phone.book.view()));
    expect(version).toMatchObject({ name: 'v1', solver: solution.solver, pieces: solution.pieces });
    expect(version.entries.length).toBeGreaterThan(5);
    expect(version.digest).toMatch(/^[0-9a-f]{64}$/);
    expect(isWhole(version)).toBe(true);
    const [first, ...rest] = version.readings.pieces;
    const changed = { ...version.readings, pieces: [{ ...first!, length: 0.89 }, ...rest] };
    expect(isWhole({ ...version, readings: changed })).toBe(false);
  });
});
