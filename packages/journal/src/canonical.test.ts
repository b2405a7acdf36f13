import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonical, parse, parseCanonical } from './canonical.ts';

/** A double from its 16 hex digits, big end first. */
function double(hex: string): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, BigInt(`0x${hex}`));
  return view.getFloat64(0);
}

// RFC 8785 appendix B, "Number Serialization Samples" (all rows that are numbers).
const APPENDIX_B: readonly (readonly [string, string])[] = [
  ['0000000000000000', '0'],
  ['8000000000000000', '0'],
  ['0000000000000001', '5e-324'],
  ['8000000000000001', '-5e-324'],
  ['7fefffffffffffff', '1.7976931348623157e+308'],
  ['ffefffffffffffff', '-1.7976931348623157e+308'],
  ['4340000000000000', '9007199254740992'],
  ['c340000000000000', '-9007199254740992'],
  ['4430000000000000', '295147905179352830000'],
  ['44b52d02c7e14af5', '9.999999999999997e+22'],
  ['44b52d02c7e14af6', '1e+23'],
  ['44b52d02c7e14af7', '1.0000000000000001e+23'],
  ['444b1ae4d6e2ef4e', '999999999999999700000'],
  ['444b1ae4d6e2ef4f', '999999999999999900000'],
  ['444b1ae4d6e2ef50', '1e+21'],
  ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
  ['3eb0c6f7a0b5ed8d', '0.000001'],
  ['41b3de4355555553', '333333333.3333332'],
  ['41b3de4355555554', '333333333.33333325'],
  ['41b3de4355555555', '333333333.3333333'],
  ['41b3de4355555556', '333333333.3333334'],
  ['41b3de4355555557', '333333333.33333343'],
  ['becbf647612f3696', '-0.0000033333333333333333'],
  ['43143ff3c1cb0959', '1424953923781206.2'],
];

// RFC 8785 section 3.2.2, as JSON text.
const SECTION_3_2_2 = `{
  "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
  "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
  "literals": [null, true, false]
}`;

// RFC 8785 section 3.2.4: the same, canonicalised, as UTF-8 bytes.
const SECTION_3_2_4 = `
  7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72
  75 65 2c 66 61 6c 73 65 5d 2c 22 6e 75 6d 62 65 72 73 22 3a
  5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31
  65 2b 33 30 2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37
  5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30
  30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d`;

describe('canonical', () => {
  it.each(APPENDIX_B)('writes the double %s as %s (RFC 8785 appendix B)', (hex, text) => {
    expect(canonical(double(hex))).toBe(text);
  });

  it.each(['7fffffffffffffff', '7ff0000000000000', 'fff0000000000000'])(
    'refuses %s, NaN or an infinity',
    (hex) => {
      expect(() => canonical({ a: [1, double(hex)] })).toThrow(/at "a\.1".*no place in JSON/);
    },
  );

  it('gives the bytes of RFC 8785 section 3.2.4 for the value of section 3.2.2', () => {
    const bytes = new TextEncoder().encode(canonical(JSON.parse(SECTION_3_2_2)));
    const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join(' ');
    expect(hex).toBe(SECTION_3_2_4.trim().split(/\s+/).join(' '));
  });

  it('sorts names by UTF-16 code units (RFC 8785 section 3.2.3)', () => {
    const value = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    const order = [...canonical(value).matchAll(/:"([^"]+)"/g)].map((match) => match[1]);
    expect(order).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  // From the public test data beside the RFC, github.com/cyberphone/json-canonicalization, testdata/.
  it.each([
    [
      'structures',
      '{"1":{"f":{"f":"hi","F":5},"\\n":56.0},"10":{},"":"empty","a":{},"111":[{}],"A":{}}',
      '{"":"empty","1":{"\\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{}],"A":{},"a":{}}',
    ],
    [
      'values',
      '{"numbers":[1E30,4.50,333333333.33333329,2e-3,0.000000000000000000000000001],"escaping":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
      '{"escaping":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/","literals":[null,true,false],"numbers":[1e+30,4.5,333333333.3333333,0.002,1e-27]}',
    ],
    [
      'french',
      '{"peach":"1","péché":"2","pêche":"3","sin":"4"}',
      '{"peach":"1","péché":"2","pêche":"3","sin":"4"}',
    ],
  ])('gives the published output for "%s"', (_, input, output) => {
    expect(canonical(JSON.parse(input))).toBe(output);
    expect(canonical(parse(input))).toBe(output);
    expect(() => parseCanonical(output)).not.toThrow();
  });

  it.each([
    ['undefined', { a: undefined }, /at "a": a value of type undefined/],
    ['a function', { a: () => 1 }, /type function/],
    ['a date', { when: new Date(0) }, /at "when": not a plain object/],
    ['a hole in a list', Object.assign([1], { length: 2 }), /at "1": a value of type undefined/],
    ['U+0000', { a: 'x\0' }, /at "a".*U\+0000/],
    ['a lone high surrogate', { a: '\ud83d' }, /lone surrogate/],
    ['a lone low surrogate in a name', { '\ude00': 1 }, /lone surrogate/],
  ])('refuses %s and says where', (_, value, message) => {
    expect(() => canonical(value)).toThrow(message);
  });

  it('refuses more than 32 levels, also as text, and takes 32', () => {
    const nested = (depth: number) => `${'['.repeat(depth)}${']'.repeat(depth)}`;
    expect(canonical(parse(nested(32)))).toBe(nested(32));
    expect(() => parse(nested(33))).toThrow(/32 levels/);
    expect(() => canonical(JSON.parse(nested(33)))).toThrow(/32 levels/);
    expect(() => parse(nested(5000))).toThrow(/32 levels/);
  });
});

describe('parse', () => {
  it('makes "__proto__" an ordinary property and pollutes nothing', () => {
    const value = parse('{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":2}}}') as Record<
      string,
      unknown
    >;
    expect(Object.keys(value)).toEqual(['__proto__', 'constructor']);
    expect(Object.getPrototypeOf(value)).toBeNull();
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    expect(canonical(value)).toBe('{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":2}}}');
  });

  it.each(['{"a":"\\u0000"}', '{"\\u0000":1}', '["\\ud800"]', '["\ud800"]', '[1e999]', '{"a":', '', '01'])(
    'refuses %j',
    (text) => {
      expect(() => parse(text)).toThrow();
    },
  );
});

describe('parseCanonical', () => {
  it.each([
    '{"a":1, "b":2}',
    '{"b":1,"a":2}',
    '{"a":1.0}',
    '{"a":-0}',
    '"\\u0041"',
    '{"a":1,"a":1}',
    '"\\/"',
    ' 1',
    '1E2',
  ])('refuses %j, which says the same in another form', (text) => {
    expect(() => parseCanonical(text)).toThrow(/canonical form/);
  });

  it('takes every canonical text and gives the value back (names like array indices too)', () => {
    const name = fc.oneof(fc.string({ unit: 'grapheme' }), fc.constantFrom('10', '9', '', '__proto__', 'a'));
    const { tree } = fc.letrec((tie) => ({
      leaf: fc.oneof(
        fc.constantFrom(null, true, false),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        name,
      ),
      tree: fc.oneof({ maxDepth: 4 }, tie('leaf'), fc.array(tie('tree')), fc.dictionary(name, tie('tree'))),
    }));
    fc.assert(
      fc.property(tree, (value) => {
        let text: string;
        try {
          text = canonical(value);
        } catch {
          return;
        }
        expect(canonical(parseCanonical(text))).toBe(text);
        expect(JSON.stringify(JSON.parse(text))).toBe(
          JSON.stringify(JSON.parse(JSON.stringify(parse(text)))),
        );
      }),
      { numRuns: 2000 },
    );
  });
});
