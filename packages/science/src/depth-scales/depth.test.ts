import { describe, expect, it } from 'vitest';
import { scaleName } from './depth.ts';

describe('scaleName', () => {
  it('is another one for every scale, so that two versions or two laboratories are not mixed up', () => {
    const names = [
      scaleName({ name: 'driller' }),
      scaleName({ name: 'logger' }),
      scaleName({ name: 'solved', version: 'v1' }),
      scaleName({ name: 'solved', version: 'v2' }),
      scaleName({ name: 'bag interval' }),
      scaleName({ name: 'laboratory', of: 'ions' }),
      scaleName({ name: 'imported', of: 'ions' }),
    ];
    expect(new Set(names).size).toBe(names.length);
    expect(names[3]).toBe('solved v2');
  });
});
