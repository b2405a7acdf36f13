import type { Ask, Plan } from './ask.ts';

const bench = ['cm', 'mm', 'm'] as const;
const fine = ['mm', 'cm'] as const;
const mass = ['g', 'kg'] as const;
const note: Ask = { field: 'note', long: true };
const diameter = (field: string): Ask => ({ field, units: ['mm'], near: 0.1 });

/** What a logger sees and measures at the bench. */
export const corePlans: Readonly<Record<string, Plan>> = {
  piece: {
    // The quick path has a form of its own (piece-form.tsx); these serve corrections and what is added later.
    asks: [
      { field: 'length', units: ['cm', 'm'] },
      { field: 'topBreak', first: 4 },
      { field: 'loss', units: ['cm', 'mm'], hint: 'piece.hint.loss' },
      { field: 'number' },
      { field: 'run' },
    ],
    more: [
      { field: 'mass', units: mass },
      { field: 'tare', units: mass },
      diameter('diameterTop'),
      diameter('diameterMiddle'),
      diameter('diameterBottom'),
      { field: 'missing', units: ['%'] },
      { field: 'temperature', start: '-' },
      { field: 'kerf', units: ['mm'] },
      { field: 'ice' },
      { field: 'order' },
      { field: 'way' },
      { field: 'turned', units: ['°'], hint: 'hint.turned' },
      { field: 'found' },
      { field: 'brokenAgain' },
      { field: 'catcherMark', units: fine },
      { field: 'catcherRun' },
      note,
    ],
  },
  tray: {
    asks: [{ field: 'positions', title: 'thing.bare', units: bench }],
    more: [{ field: 'run' }, note],
  },
  feature: {
    asks: [
      { field: 'what', title: 'feature.ask.what' },
      { field: 'note', long: true, when: { field: 'what', is: ['other'] }, must: true },
      { field: 'end', title: 'feature.ask.end' },
      { field: 'at', title: 'feature.ask.at', units: fine },
      { field: 'thickness', units: fine },
    ],
    more: [{ field: 'piece' }, note],
  },
  photograph: {
    asks: [{ field: 'picture', title: 'thing.bare' }],
    more: [{ field: 'caption' }, { field: 'of' }],
  },
};
