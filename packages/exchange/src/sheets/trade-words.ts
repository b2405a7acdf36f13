import { type Field, fieldText, type Kind, kindText, sayEnglish } from '@firnbook/campaign';

/**
 * What crews write above their columns, by kind and field, best first; in lower case, without units (header.ts).
 * The field's own name and what the screens call it count as well, so a kind needs no line here. Common practice,
 * no source.
 */
const fieldWords: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  run: {
    number: [
      ...['run', 'run no', 'run nr', 'run number', 'run #', 'run id', 'lauf', 'bohrlauf', 'lauf nr'],
      ...['trip', 'trip no', 'drill run', 'no', 'nr', '#', 'number'],
    ],
    from: [
      ...['depth from', 'from', 'from depth', 'depth start', 'start depth', 'depth top', 'top', 'top depth'],
      ...['drillers depth from', 'drillers depth top', 'depth before', 'start', 'von', 'tiefe von'],
    ],
    to: [
      ...['depth to', 'to', 'to depth', 'depth end', 'end depth', 'depth bottom', 'bottom', 'bottom depth'],
      ...['drillers depth to', 'drillers depth bottom', 'depth after', 'end', 'bis', 'tiefe bis'],
    ],
    rotation: ['rpm', 'rotation', 'speed'],
    current: ['current', 'motor current', 'amps'],
    temperature: ['core temperature', 'core temp', 't core'],
    note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments', 'bemerkung', 'bemerkungen'],
  },
  piece: {
    run: ['run', 'run no', 'run nr', 'run number', 'run #', 'run id', 'lauf', 'bohrlauf', 'lauf nr', 'trip'],
    number: ['piece', 'piece no', 'piece nr', 'piece number', 'piece #', 'piece id', 'stuck', 'stuck nr'],
    length: ['length', 'piece length', 'core length', 'l', 'len', 'lange', 'kernlange', 'recovered length'],
    topBreak: ['top break', 'break', 'break above', 'break top', 'fit', 'upper break', 'bruch', 'bruch oben'],
    loss: ['loss', 'lost', 'lost ice', 'loss estimate', 'missing ice', 'verlust'],
    mass: ['mass', 'weight', 'masse', 'gewicht'],
    diameterMiddle: ['diameter', 'diameter middle', 'd', 'durchmesser'],
    note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments', 'bemerkung', 'bemerkungen'],
  },
  sounding: {
    afterRun: ['after run', 'run', 'run no', 'run nr', 'run number', 'nach lauf'],
    depth: ['hole depth', 'sounding depth', 'sounding', 'depth', 'tape depth', 'lottiefe', 'lotung'],
    sd: ['sd', 'depth sd', 'hole depth sd', 'sigma', 'standard deviation', 'uncertainty', 'error'],
  },
  'cable check': {
    afterRun: ['after run', 'run'],
    mark: ['mark', 'cable mark'],
    counter: ['counter', 'counter reading', 'reading'],
  },
  weather: {
    temperature: ['temperature', 'air temperature', 'temp', 't', 'lufttemperatur'],
    wind: ['wind', 'wind speed'],
    direction: ['wind direction', 'direction'],
  },
};

/** Words in the name of a sheet or in a title that say what its rows are. */
const kindWords: Readonly<Record<string, readonly string[]>> = {
  run: ['run', 'runs', 'drilling', 'drill log', 'driller', 'bohrung', 'bohrlaufe', 'drillers log'],
  piece: ['piece', 'pieces', 'core log', 'logger', 'logging', 'stucke', 'kernprotokoll', 'core'],
  sounding: ['sounding', 'soundings', 'lotungen', 'hole depth'],
};

/** What people write for a word of a list; of several, the first that the list has. */
const valueWords: Readonly<Record<string, readonly string[]>> = {
  fit: ['fits'],
  good: ['fits', 'good'],
  clean: ['fits'],
  passt: ['fits'],
  'ice lost': ['loss'],
  lost: ['loss'],
  'lost ice': ['loss'],
  gap: ['loss'],
  verlust: ['loss'],
  spun: ['ground', 'unsure'],
  'ground by spinning': ['ground', 'unsure'],
  sawn: ['sawn', 'unsure'],
  saw: ['sawn', 'unsure'],
  cut: ['sawn', 'unsure'],
  'broken in handling': ['handling', 'fits'],
  'handling break': ['handling', 'fits'],
  unknown: ['unknown', 'unsure'],
  unclear: ['unsure'],
  '?': ['unsure', 'unknown'],
  none: ['nothing', 'no'],
  empty: ['nothing'],
  x: ['yes'],
  true: ['yes'],
  false: ['no'],
  ja: ['yes', 'core'],
  nein: ['no', 'nothing'],
};

/** Headings that say when something was seen. */
export const dayWords = [
  ...['date', 'day', 'datum', 'tag', 'dato', 'fecha', 'data', 'jour', 'date time', 'datetime', 'timestamp'],
  ...['date and time', 'date local time', 'date utc', 'time utc', 'utc', 'observed at'],
];
export const timeWords = [
  'time',
  'local time',
  'hour',
  'clock',
  'uhrzeit',
  'zeit',
  'heure',
  'hora',
  'time of day',
];
export const holeWords = [
  'hole',
  'borehole',
  'bore hole',
  'drill hole',
  'hole id',
  'core',
  'core id',
  'bohrloch',
];

const spaced = (name: string): string => name.replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2').toLowerCase();

/** Headings that mean a field, best first. */
export const headingsOf = (kind: Kind, field: Field): readonly string[] => {
  const own = Object.hasOwn(fieldWords, kind.kind) ? fieldWords[kind.kind]! : {};
  const name = spaced(field.name);
  const said = sayEnglish(fieldText(kind.kind, field.name)).toLowerCase();
  return [
    ...(Object.hasOwn(own, field.name) ? own[field.name]! : []),
    name,
    said,
    `${kind.kind} ${name}`,
    `${kind.kind} ${said}`,
  ];
};

/** Whether a sheet's name or title says that its rows are of this kind. */
export const isNamedAfter = (kind: Kind, title: string): boolean => {
  const words = ` ${title.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, ' ')} `;
  const own = Object.hasOwn(kindWords, kind.kind) ? kindWords[kind.kind]! : [];
  return [...own, sayEnglish(kindText(kind.kind, 1)), sayEnglish(kindText(kind.kind, 2))].some((word) =>
    words.includes(` ${word.toLowerCase()} `),
  );
};

/** The word of a list that a cell means; null where there is none. */
export const wordMeant = (text: string, words: readonly string[]): string | null => {
  const plain = text.trim().toLowerCase();
  const same = words.find((word) => word.toLowerCase() === plain);
  if (same !== undefined) return same;
  if (!Object.hasOwn(valueWords, plain)) return null;
  return valueWords[plain]!.find((word) => words.includes(word)) ?? null;
};
