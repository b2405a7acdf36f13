import { existsSync } from 'node:fs';
import type { Input } from '@firnbook/science/relations';
import { describe, expect, it } from 'vitest';
import '../texts/for-calculator.ts';
import { calculatorTexts } from '../texts/en-calculator.ts';
import { sayHere } from '../texts/say-here.ts';
import { quantityKey } from './quantity-words.ts';
import type { Question } from './question.ts';
import { questions } from './questions.ts';
import { workedOut } from './use-answer.ts';

const called = (key: Question['key']) => questions.find((one) => one.key === key)!;

/** Numbers in the relation's own writing: "12.5 kg" with its uncertainty. */
type Given = Readonly<Record<string, readonly [value: number, unit: string, sd?: number] | string>>;

/** As a reader who writes a point hears it. */
function told(key: Question['key'], given: Given) {
  const inputs = Object.fromEntries(
    Object.entries(given).map(([name, one]): [string, Input] => {
      if (typeof one === 'string') return [name, { kind: 'words', text: one }];
      const [value, unit, sd] = one;
      return [name, { kind: 'number', value, unit, ...(sd === undefined ? {} : { sd }) }];
    }),
  );
  const outcome = workedOut(called(key), inputs);
  if (outcome.state !== 'worked')
    return { refused: outcome.state === 'refused' ? plain(outcome.problem) : '' };
  const { headlines, says, warns = [] } = called(key).answer(outcome.worked);
  return {
    figures: headlines.map((one) => plain(one.figure)),
    says: says.map((said) => plain(sayHere(said))),
    warns: warns.map((said) => plain(sayHere(said))),
  };
}
const plain = (text: string) => text.replaceAll('\u00a0', ' ').replace(/(\d),(\d)/g, '$1.$2');

describe.each(questions.map((question) => [question.key, question] as const))(
  'question %s',
  (_, question) => {
    const { relation, asked, camp, caution } = question;
    const texts: readonly string[] = Object.keys(calculatorTexts);
    it('asks for what its relation takes, and every quantity has its words', () => {
      const takes = Object.keys(relation.takes);
      expect([...asked, ...Object.keys(camp)].filter((name) => !takes.includes(name))).toEqual([]);
      const named = [
        ...takes.map((name) => quantityKey(relation, 'take', name)),
        ...Object.keys(relation.gives).map((name) => quantityKey(relation, 'give', name)),
      ];
      expect(named.filter((key) => !texts.includes(key))).toEqual([]);
    });
    it('can ask for it with boxes and buttons, and what is not asked up front has a value', () => {
      for (const [name, taken] of Object.entries(relation.takes)) {
        expect(['number', 'choice']).toContain(taken.kind);
        if (taken.kind !== 'number' || asked.includes(name)) continue;
        expect(taken.usual ?? camp[name]?.guess, name).toBeDefined();
      }
    });
    it('tells the caution where its relation has one, and has a page of its method', () => {
      expect(caution !== undefined).toBe(relation.caution !== undefined);
      expect(existsSync(new URL(`../../../../docs/method/${relation.page}.md`, import.meta.url))).toBe(true);
    });
  },
);

describe('density of a piece', () => {
  // The worked example of docs/method/piece-density.md: 4.2 kg, 94 cm, 98.2 mm have 589.941 kg/m3.
  const piece: Given = { mass: [4.2, 'kg', 0.005], length: [94, 'cm', 0.3], diameter: [98.2, 'mm', 0.4] };
  it('is told with its uncertainty, and that ice can have it', () => {
    const { figures, says, warns } = told('density', piece);
    expect(figures).toEqual([
      expect.stringMatching(/^590 ± \d kg\/m³$/),
      expect.stringMatching(/^555 ± \d mm w\.e\.$/),
    ]);
    expect(says).toEqual([
      'The piece has 590 kg/m³, give or take 5.',
      expect.stringContaining('That is possible: ice without bubbles has 91'),
    ]);
    expect(warns).toEqual([]);
  });
  it('a little above ice is left open, far above it is not possible and says what to measure again', () => {
    const edge = told('density', { ...piece, mass: [6.6, 'kg', 0.005] });
    expect(edge.says?.[1]).toMatch(/more than the 91[89].* of ice without bubbles, and still within/);
    const beyond = told('density', { ...piece, mass: [7.9, 'kg', 0.005] });
    expect(beyond.warns?.[0]).toMatch(/^Not possible: denser than ice can be.*Measure again/);
    expect(beyond.says).toHaveLength(1);
  });
});

describe('closing of the hole', () => {
  // Recomputed from Nye 1953 and the table of Cuffey & Paterson 2010: 126 mm, -5 degrees C, 100 m, 900 kg/m3, 9.81 m/s2.
  const hole: Given = {
    diameter: [126, 'mm'],
    depth: [100, 'm'],
    temperature: [-5, 'Cel', 0.5],
    meanDensity: [900, 'kg/m3'],
    clearance: [2, 'mm'],
    gravity: [9.81, 'm/s2'],
  };
  it('2 mm are lost in 7.8 days, give or take what half a degree makes of it', () => {
    const { figures, says } = told('closure', hole);
    expect(says?.[0]).toMatch(/^The hole loses 2 mm in 7\.8 days, give or take \d\.\d+: 0\.258 mm a day\.$/);
    expect(figures?.[0]).toMatch(/^7\.8 ± \d\.\d+ days$/);
    expect(says?.at(-1)).toMatch(/^After 10 days its diameter is 123\.4/);
  });
  it('tells the published parameter that closes it fastest', () => {
    expect(told('closure', hole).says?.[1]).toMatch(
      /^By the published creep parameter that closes it fastest/,
    );
  });
  it('a fluid heavier than the ice holds it open', () => {
    const { figures, says } = told('closure', { ...hole, fluidDensity: [930, 'kg/m3'] });
    expect(says?.[0]).toBe('The fluid holds it: by creep alone the hole does not close.');
    expect(figures).toHaveLength(1);
  });
  it('more room than the hole is wide is refused with what would be taken', () => {
    expect(told('closure', { ...hole, clearance: [140, 'mm'] }).refused).toMatch(
      /diameter lost is 0\.14 m\. Taken is: 0 m to below the diameter of 0\.126 m\.$/,
    );
  });
});

describe('stretch of the cable', () => {
  // Elementary mechanics, recomputed: 100 m, EA 400 kN, 0.115 kg/m, 60 kg give 161.197 mm.
  const cable: Given = {
    counter: [100, 'm', 0.01],
    load: [60, 'kg', 3],
    cableMass: [115, 'g/m', 2],
    stiffness: [400, 'kN', 20],
    top: [-7, 'Cel'],
    bottom: [-13, 'Cel'],
    calibrated: [-10, 'Cel'],
  };
  it('161 mm by load alone, and the depth as every other depth is told', () => {
    const { figures, says } = told('stretch', cable);
    expect(figures).toEqual(['161 ± 11 mm', '100.16 m ± 1 cm']);
    expect(says?.[0]).toMatch(
      /^The cable is longer than the counter says by 161 mm, give or take 11: 161 mm by load and its own weight, 0(\.0+)? mm by temperature\.$/,
    );
  });
  it('a light drill on a cable that got cold hangs higher than the counter says', () => {
    const cold: Given = { ...cable, load: [2, 'kg'], cableMass: [10, 'g/m'], bottom: [-60, 'Cel'] };
    expect(told('stretch', cold).says?.[0]).toMatch(/^The cable is shorter than the counter says by \d/);
  });
});

describe('warming of a box', () => {
  const box: Given = {
    start: [-25, 'Cel', 1],
    ambient: [-5, 'Cel', 2],
    cores: [4, '1'],
    snow: [6, 'cm', 1],
    insulation: [50, 'mm', 2],
    diameter: [98, 'mm', 1],
    length: [105, 'cm', 1],
  };
  it('tells when the ice is at the limit, and when a piece at the wall is', () => {
    const { figures, says, warns } = told('box', box);
    expect(figures).toEqual([expect.stringMatching(/hours$/), expect.stringMatching(/hours$/)]);
    expect(says?.[0]).toMatch(
      /^The outside of the 28\.\d kg of ice comes to −15 °C after [\d.]+ hours, give or take \d/,
    );
    expect(warns).toEqual([]);
  });
  it('air that is colder than the limit never brings it there; ice that is warmer is there already', () => {
    expect(told('box', { ...box, ambient: [-18, 'Cel'] }).says).toEqual([
      'In this air the ice does not come to −15 °C.',
    ]);
    expect(told('box', { ...box, start: [-12, 'Cel'] }).warns).toEqual([
      'The ice is at −15 °C or warmer already.',
    ]);
  });
  it('says so where the readings leave open whether it is over', () => {
    expect(told('box', { ...box, start: [-15.4, 'Cel', 2] }).warns?.[0]).toMatch(/^What went in leaves open/);
  });
});

describe('age at a depth', () => {
  const depth: Given = {
    depth: [60, 'm', 0.1],
    thickness: [150, 'm', 8],
    accumulation: [0.4, 'm w.e./a', 0.04],
    temperature: [-14, 'Cel', 1],
  };
  it('tells age and the thickness of a year, by which model', () => {
    const { figures, says } = told('age', depth);
    expect(figures).toEqual([expect.stringMatching(/ years$/), expect.stringMatching(/ cm$/)]);
    expect(says?.[0]).toMatch(/^The age of the ice there is \d+ years, give or take \d+\.$/);
    expect(says?.at(-1)).toMatch(/^By Nye 1963/);
    expect(told('age', { ...depth, model: 'two-parameter (Bolzan 1985)' }).says?.at(-1)).toMatch(
      /^By two-param/,
    );
  });
  it('a depth beyond the bed is refused with what would be taken', () => {
    expect(told('age', { ...depth, depth: [151, 'm'] }).refused).toMatch(/Taken is: 0 to /);
  });
});
