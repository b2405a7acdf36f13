import type { Ask, Plan } from './ask.ts';

const note: Ask = { field: 'note', long: true };
const receivers = ['method.receiver', 'method.survey', 'method.map'] as const;
const readBy = {
  field: 'instrument',
  units: {
    balance: ['g', 'kg'],
    caliper: ['mm'],
    tape: ['cm', 'mm', 'm'],
    thermometer: ['°C'],
    'cable marks': ['m'],
    clock: ['s', 'min'],
  },
};

/** What the camp writes down around the hole. */
export const campPlans: Readonly<Record<string, Plan>> = {
  weather: {
    asks: [
      { field: 'temperature', start: '-' },
      { field: 'wind', units: ['m/s', 'kn', 'km/h'] },
      { field: 'direction', winds: true, units: ['°'] },
      { field: 'sky' },
    ],
    more: [{ field: 'gusts', units: ['m/s', 'kn', 'km/h'] }, { field: 'newSnow', units: ['cm', 'mm'] }, note],
  },
  duty: {
    asks: [
      { field: 'person', title: 'duty.ask.person' },
      { field: 'as', title: 'duty.ask.as' },
      { field: 'began', title: 'duty.ask.began', must: true },
    ],
    more: [{ field: 'ended' }],
  },
  handover: {
    asks: [
      { field: 'to', title: 'handover.ask.to', skip: 'handover.everybody' },
      { field: 'says', title: 'handover.ask.says', long: true },
    ],
    more: [],
  },
  'instrument check': {
    asks: [
      { field: 'instrument' },
      { field: 'which' },
      { field: 'against', unitsBy: readBy },
      { field: 'read', unitsBy: readBy },
      { field: 'result' },
    ],
    more: [note],
  },
  contamination: {
    asks: [
      { field: 'source', title: 'contamination.ask.source' },
      { field: 'began', title: 'contamination.ask.began' },
      { field: 'ended', title: 'contamination.ask.ended', skip: 'contamination.goes.on' },
    ],
    more: [{ field: 'hole' }, note],
  },
  blank: {
    asks: [{ field: 'what' }, { field: 'name', numbered: 'name.blank' }, { field: 'hole' }],
    more: [note],
  },
  stake: {
    asks: [
      { field: 'name', numbered: 'name.stake' },
      { field: 'height', units: ['cm', 'm'] },
    ],
    more: [{ field: 'position' }, note],
  },
  position: {
    asks: [
      { field: 'of', title: 'position.ask.of' },
      { field: 'position', title: 'thing.bare' },
      { field: 'elevation', units: ['m'] },
    ],
    more: [
      { field: 'sd', units: ['m', 'cm'], hint: 'sounding.hint.sd' },
      { field: 'method', usual: receivers },
    ],
  },
  site: {
    asks: [
      { field: 'name', numbered: 'name.site' },
      { field: 'temperature', start: '-', hint: 'hint.site.temperature' },
      { field: 'accumulation', units: ['m', 'mm'], hint: 'hint.site.accumulation' },
      { field: 'surfaceDensity', units: ['kg/m³'] },
    ],
    more: [note],
  },
  pit: {
    asks: [
      { field: 'name', numbered: 'name.pit' },
      { field: 'depth', units: ['m', 'cm'] },
    ],
    more: [{ field: 'position' }, note],
  },
  'hand-augered top': {
    asks: [
      { field: 'name', numbered: 'name.auger' },
      { field: 'hole' },
      { field: 'from', units: ['m', 'cm'] },
      { field: 'to', units: ['m', 'cm'] },
      { field: 'diameter', units: ['mm'] },
    ],
    more: [{ field: 'position' }, note],
  },
};
