import { fieldOf, kindOf, kinds, units } from '@firnbook/campaign';
import { describe, expect, it } from 'vitest';
import { asksOf, planOf } from './plans.ts';

/** Made elsewhere than in a form of a plan, or by the tool itself: see the files named. */
const withoutPlan = [
  'campaign', // campaigns-screen.tsx
  'device', // the device names itself
  'person', // who-dialog.tsx
  'hole', // hole-form.tsx
  'splice',
  'confirmed reading',
  'settled right', // used-right.tsx
  'depth settings',
  'depth version',
  'import',
];

/** Fields that the form is told instead of asking for them. */
const given: Readonly<Record<string, readonly string[]>> = { feature: ['lengthEntry'] };

const planned = kinds.filter((kind) => planOf(kind.kind).asks.length > 0);

describe('form plans', () => {
  it('every kind that people log has one, and none asks for a field that its table lacks', () => {
    const without = kinds.filter((kind) => !planned.includes(kind)).map((kind) => kind.kind);
    expect(without.filter((kind) => !withoutPlan.includes(kind))).toEqual([]);
    for (const { kind } of planned)
      for (const ask of asksOf(kind))
        expect(fieldOf(kindOf(kind)!, ask.field), `${kind} ${ask.field}`).toBeDefined();
  });

  it('every field of those kinds can be said, as a question or as what the form knows', () => {
    for (const { kind, fields } of planned) {
      const asked = asksOf(kind).map((ask) => ask.field);
      const unsaid = fields
        .map((field) => field.name)
        .filter((name) => !asked.includes(name) && !given[kind]?.includes(name));
      expect(unsaid, kind).toEqual([]);
    }
  });

  it('units that are offered are units of the field, and the cold begins with its sign', () => {
    for (const { kind } of planned) {
      for (const ask of asksOf(kind)) {
        const field = fieldOf(kindOf(kind)!, ask.field)!;
        const dimension = field.quantity === 'lengths' ? 'length' : field.quantity;
        if (ask.units && dimension in units)
          for (const unit of ask.units)
            expect(Object.keys(units[dimension as keyof typeof units]), `${kind} ${ask.field}`).toContain(
              unit,
            );
        if (field.quantity === 'temperature') expect(ask.start, `${kind} ${ask.field}`).toBe('-');
      }
    }
  });
});
