import type { Ask, Plan } from './ask.ts';

const depth = ['m', 'cm'] as const;
const short = ['cm', 'mm'] as const;

const note: Ask = { field: 'note', long: true };
const temperature: Ask = { field: 'temperature', start: '-' };
const surfaces = [
  'zero.surface.snow',
  'zero.surface.casing',
  'zero.surface.board',
  'zero.surface.pit',
] as const;
const methods = ['method.tape', 'method.level', 'method.staff'] as const;

/** What a driller measures and sets up. */
export const drillPlans: Readonly<Record<string, Plan>> = {
  run: {
    // The quick path has a form of its own (run-form.tsx); these serve corrections.
    asks: [
      { field: 'from', units: depth },
      { field: 'to', units: depth },
      { field: 'recovered' },
      { field: 'number' },
    ],
    more: [
      { field: 'stub', units: short, hint: 'hint.run.stub' },
      { field: 'counter' },
      { field: 'chips', units: ['kg', 'g'] },
      { field: 'current' },
      { field: 'rotation' },
      { field: 'breakLoad', units: ['kN', 'kgf'] },
      { field: 'fluid' },
      temperature,
      { field: 'quality' },
      { field: 'setup' },
      { field: 'zero' },
      note,
    ],
  },
  sounding: {
    asks: [
      { field: 'depth', title: 'sounding.ask.depth', units: depth },
      {
        field: 'sd',
        title: 'sounding.ask.sd',
        units: short,
        propose: '2 cm',
        hint: 'sounding.hint.sd',
      },
    ],
    more: [{ field: 'afterRun' }],
  },
  'cable check': {
    asks: [
      { field: 'mark', units: ['m'], hint: 'hint.cable.mark' },
      { field: 'counter', units: ['m'], hint: 'hint.cable.counter' },
    ],
    more: [{ field: 'sd', units: short, hint: 'sounding.hint.sd' }, { field: 'afterRun' }],
  },
  inclination: {
    asks: [
      { field: 'depth', units: ['m'] },
      { field: 'angle', units: ['°'] },
      { field: 'azimuth', units: ['°'], hint: 'hint.azimuth' },
    ],
    more: [{ field: 'sd', units: ['°'], hint: 'sounding.hint.sd' }],
  },
  zero: {
    asks: [
      { field: 'surface', title: 'zero.ask', usual: surfaces, hint: 'zero.hint' },
      { field: 'height', title: 'zero.ask.against', units: ['cm', 'm'], height: true },
    ],
    more: [{ field: 'method', usual: methods }],
  },
  'zero check': {
    asks: [
      { field: 'zero', title: 'zero.check.which' },
      { field: 'height', title: 'zero.ask.against', units: ['cm', 'm'], height: true },
    ],
    more: [
      { field: 'sd', units: short, hint: 'sounding.hint.sd' },
      { field: 'method', usual: methods },
    ],
  },
  'set-up': {
    asks: [
      { field: 'name', numbered: 'name.setup' },
      { field: 'barrel', units: depth, propose: { newest: true } },
      { field: 'catcherHeight', units: ['mm', 'cm'], propose: { newest: true } },
      { field: 'coreDiameter', units: ['mm'], propose: { newest: true } },
      { field: 'cutters', usual: ['word.cutters'], propose: { newest: true } },
    ],
    more: [
      { field: 'holeDiameter', units: ['mm'], propose: { newest: true } },
      { field: 'shoes', propose: { newest: true } },
      { field: 'pitch', units: ['mm'], propose: { newest: true } },
      { field: 'cable', propose: { newest: true } },
      note,
    ],
  },
};
