import { describe, expect, it } from 'vitest';
import { keysIn } from './left-standing.ts';

describe('keysIn', () => {
  it('reads back the readings that were left as they stand', () => {
    expect(keysIn('["piece-1 length entry-4"]')).toEqual(['piece-1 length entry-4']);
  });

  it('takes damaged or foreign text as none', () => {
    for (const text of ['', '{', '{"a":1}', 'null']) expect(keysIn(text)).toEqual([]);
    expect(keysIn('["a", 3]')).toEqual(['a']);
  });
});
