import { describe, expect, it } from 'vitest';
import { decodeText } from './decode.ts';

const bytes = (...values: number[]) => Uint8Array.from(values);
const utf8 = (text: string) => new TextEncoder().encode(text);

describe('decodeText', () => {
  it('reads UTF-8 with and without its byte order mark, which is not part of the text', () => {
    expect(decodeText(utf8('δ¹⁸O'), 'f')).toEqual({ text: 'δ¹⁸O', encoding: 'UTF-8' });
    expect(decodeText(bytes(0xef, 0xbb, 0xbf, 0x61), 'f').text).toBe('a');
  });

  it('reads UTF-16 of both orders, with a mark or without', () => {
    expect(decodeText(bytes(0xff, 0xfe, 0x61, 0, 0x62, 0), 'f')).toEqual({
      text: 'ab',
      encoding: 'UTF-16LE',
    });
    expect(decodeText(bytes(0xfe, 0xff, 0, 0x61, 0, 0x62), 'f')).toEqual({
      text: 'ab',
      encoding: 'UTF-16BE',
    });
    expect(decodeText(bytes(0x72, 0, 0x75, 0, 0x6e, 0), 'f').text).toBe('run');
    expect(decodeText(bytes(0, 0x72, 0, 0x75, 0, 0x6e), 'f').text).toBe('run');
  });

  it('reads what is no UTF-8 as Windows-1252, in which B0 is the degree sign', () => {
    expect(decodeText(bytes(0xb0, 0x43), 'f')).toEqual({ text: '°C', encoding: 'Windows-1252' });
  });

  it('turns CR LF and the old CR into LF', () => {
    expect(decodeText(utf8('a\r\nb\rc\nd'), 'f').text).toBe('a\nb\nc\nd');
  });

  it('refuses bytes that are no text, with the line', () => {
    expect(() => decodeText(utf8('a\nb\0c'), 'photo.jpg')).toThrow(
      'photo.jpg, line 2: this is not a text file',
    );
  });
});
