import { describe, expect, it, vi } from 'vitest';
import { storageHere } from '../people/storage.suite.ts';
import { begunDrafts, readDraft } from './draft.ts';
import { forget, keep, recall } from './kept.ts';

describe('drafts of half-filled forms', () => {
  storageHere();

  it('come back as typed, with fields that a newer form added', () => {
    keep('draft.piece:r3', JSON.stringify({ length: '54,6 cm' }));
    expect(readDraft('piece:r3', { length: '', topBreak: 'unsure' })).toEqual({
      length: '54,6 cm',
      topBreak: 'unsure',
    });
  });

  it('count as none where they are damaged or of another shape', () => {
    keep('draft.a', '{"length":');
    keep('draft.b', '["54"]');
    keep('draft.c', 'null');
    for (const key of ['a', 'b', 'c', 'absent'])
      expect(readDraft(key, { length: '' })).toEqual({ length: '' });
  });

  it('are told where something was typed or picked, and not where a form was only opened', () => {
    vi.stubGlobal('localStorage', {
      'firnbook.draft.run:h1': '{"step":"to","from":{"text":"12.3","unit":"m"}}',
      'firnbook.draft.piece:r1': '{"step":"break","topBreak":"","loss":{"text":"","unit":"cm"},"unusual":{}}',
      'firnbook.draft.weather:c1': '{"at":1,"readings":{"temperature":"-12 °C"},"held":null}',
      'firnbook.draft.pit:c1': 'no JSON',
      'firnbook.me.c1': 'someone',
      getItem(name: string) {
        return (this as unknown as Record<string, string>)[name] ?? null;
      },
    });
    expect(begunDrafts()).toEqual([
      { kind: 'run', about: 'h1' },
      { kind: 'weather', about: 'c1' },
    ]);
  });

  it('cost no error where the browser refuses to remember', () => {
    const refuses = () => {
      throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
    };
    vi.stubGlobal('localStorage', { getItem: refuses, setItem: refuses, removeItem: refuses });
    expect(() => keep('draft.a', '1')).not.toThrow();
    expect(() => forget('draft.a')).not.toThrow();
    expect(recall('draft.a')).toBeNull();
  });
});
