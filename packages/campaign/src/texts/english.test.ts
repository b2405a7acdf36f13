import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { kinds } from '../kinds.ts';
import { fieldText, kindText, wordText } from './called.ts';
import { english } from './english.ts';
import { sayEnglish } from './say-english.ts';
import { type Sentence, sentence } from './sentence.ts';

const source = fileURLToPath(new URL('..', import.meta.url));

describe('the catalogue of the trade', () => {
  it('every kind, field and word of a list has its text, and no text is left of one that went', () => {
    const wanted = new Set<string>();
    for (const { kind, fields } of kinds) {
      wanted.add(`kind.${kind}_one`).add(`kind.${kind}_other`);
      for (const field of fields) {
        wanted.add(`field.${kind}.${field.name}`);
        // The letter of a hole is its own name.
        if (field.quantity === 'word' && !field.words.every((word) => word.length === 1))
          for (const word of field.words) wanted.add(`word.${kind}.${field.name}.${word}`);
      }
    }
    const there = new Set(Object.keys(english).filter((key) => /^(kind|field|word)\./.test(key)));
    expect([...wanted].filter((key) => !there.has(key))).toEqual([]);
    expect([...there].filter((key) => !wanted.has(key))).toEqual([]);
  });

  it('every plural has both forms; no text is empty', () => {
    const keys = Object.keys(english);
    for (const key of keys) {
      expect(english[key as keyof typeof english]).not.toBe('');
      if (key.endsWith('_one')) expect(keys).toContain(key.replace(/_one$/, '_other'));
      if (key.endsWith('_other')) expect(keys).toContain(key.replace(/_other$/, '_one'));
    }
  });

  it('names of kinds and fields stand inside a sentence: no capital, no full stop', () => {
    for (const [key, text] of Object.entries(english))
      if (/^(kind|field|word)\./.test(key)) expect(text).toMatch(/^(?![A-Z][a-z]).*[^.]$/);
  });

  it('no sentence for people stands anywhere else in this room', () => {
    const found = files(source)
      .filter((file) => !/\.(test|suite)\.ts$/.test(file) && !file.startsWith(join(source, 'texts')))
      .flatMap(sentencesIn);
    expect(found).toEqual([]);
  });

  it('that search has teeth', () => {
    const caught = (text: string) =>
      literalsOf(ts.createSourceFile('x.ts', text, ts.ScriptTarget.Latest, true));
    expect(caught("const a = 'This is not in the book.';")).toHaveLength(1);
    expect(caught(`const a = \`There is a ${'$'}{name} already. Is it right?\`;`)).toHaveLength(1);
    expect(caught("throw new RangeError('A name is needed.');")).toEqual([]);
    expect(caught("const a = 'in place';")).toEqual([]);
  });
});

describe('sayEnglish', () => {
  it('puts in names, counts, metres, measures, lists and other sentences', () => {
    const said = (one: Sentence) => sayEnglish(one);
    expect(said(sentence('answer.run.core', { core: { depth: 0.84 }, count: 1 }))).toBe(
      '0.84 m of core in 1 piece.',
    );
    expect(said(sentence('answer.run.bottom', { depth: { depth: 29.4849, sd: 0.031 } }))).toBe(
      'Solved bottom 29.48 m ± 3 cm.',
    );
    expect(said(sentence('answer.run.left', { length: { length: 0.034 } }))).toBe(
      '3.4 cm left in the hole, expect it next.',
    );
    const most = { measure: -40, of: 'temperature', unit: '°F' } as const;
    expect(
      said(sentence('doubt.more', { text: '-10 °F', most, field: fieldText('run', 'temperature') })),
    ).toBe('-10 °F is more than -40 °F, unusual for core temperature. Is it right?');
    expect(said(sentence('mend.one.of', { words: ['m', 'cm'] }))).toBe('Use one of: m, cm.');
    expect(said(sentence('mend.one.of', { words: ['1,5 m', '2,5 m'] }))).toBe('Use one of: 1,5 m; 2,5 m.');
    expect(said(sentence('refuse.no.thing', { kinds: [kindText('pit'), kindText('hole')], text: 'X' }))).toBe(
      'There is no pit, hole "X" here.',
    );
    expect([said(kindText('person', 1)), said(kindText('person', 2))]).toEqual(['person', 'people']);
  });

  it('what somebody typed stays as typed, whatever it looks like to a catalogue', () => {
    const text = '{{field}} $t(mend.type) $& <b>&amp;</b> __proto__';
    expect(sayEnglish(sentence('refuse.name', { text }))).toBe(`"${text}" is not a name.`);
  });

  it('what this build has no text for is called what it is', () => {
    expect(sayEnglish(fieldText('piece', 'colour of a later version'))).toBe('colour of a later version');
    expect(sayEnglish(kindText('constructor', 2))).toBe('constructor');
    expect(sayEnglish(wordText('hole', 'letter', 'B'))).toBe('B');
    expect(sayEnglish(wordText('run', 'recovered', 'nothing'))).toBe('nothing');
  });
});

function files(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name));
}

function sentencesIn(file: string): readonly string[] {
  const text = readFileSync(file, 'utf8');
  const tree = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  return literalsOf(tree).map((literal) => `${file.slice(source.length)}: ${literal}`);
}

/** Literals that read like a sentence: words with spaces between them that end in a full stop or a question. */
function literalsOf(tree: ts.SourceFile): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    // What is thrown is for whoever programs against this room.
    if (ts.isThrowStatement(node)) return;
    if (
      ts.isStringLiteral(node) ||
      ts.isNoSubstitutionTemplateLiteral(node) ||
      ts.isTemplateExpression(node)
    ) {
      const text = node.getText(tree).slice(1, -1);
      if (/[a-z] \S.*[a-z}"][.?!]$/s.test(text)) found.push(text);
    }
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}
