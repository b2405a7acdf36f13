/** English of the core axis; a catalogue hands others in. {{names}} are filled in. */
export const axisTexts = {
  core: 'Core of hole {{hole}}',
  previousRun: 'Previous run',
  nextRun: 'Next run',
  closer: 'Closer',
  farther: 'Farther',
  goTo: 'Go to depth',
  metre: 'm',
  go: 'Go',
  noDepth: '“{{typed}}” is no depth in this hole. Type metres, such as {{example}}.',
  save: 'Save drawing (SVG)',
  wholeHole: 'Whole hole',
  notSolved: 'Depths are not solved yet: runs stand at the driller’s depths.',
  noPieces: 'No piece has been logged.',
  piece: '{{name}}, {{top}} to {{bottom}}, {{break}}',
  fits: 'fits the piece above',
  loss: 'ice lost above it',
  unsure: 'unsure whether it fits',
  ground: 'ground against the piece above',
  sawn: 'sawn off the piece above',
  handling: 'broken off the piece above in handling',
  needed: 'a person is needed',
  list: 'Pieces of hole {{hole}} with solved depths',
  listPart: 'Pieces of hole {{hole}} from {{from}} to {{to}} m with solved depths',
  columnPiece: 'Piece',
  columnTop: 'Top',
  columnBottom: 'Bottom',
  columnBreak: 'Top break',
} as const;

type AxisText = keyof typeof axisTexts;

export type Say = (text: AxisText, values?: Readonly<Record<string, string | number>>) => string;

export const sayEnglish: Say = (text, values = {}) =>
  axisTexts[text].replace(/\{\{(\w+)\}\}/g, (_, name: string) => String(values[name] ?? ''));
