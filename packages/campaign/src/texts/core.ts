/** Core on the bench: surprises about pieces. */
export const coreTexts = {
  'doubt.piece.empty.run': '{{name}} is logged as having brought nothing. Does this piece come from it?',
  'doubt.piece.there': 'There is a {{name}} already. Is this another piece?',
  'doubt.piece.first': '{{name}} has no piece yet, this one is {{number}}. Is it right?',
  'doubt.piece.order': 'The last piece of {{name}} was {{last}}, this one is {{number}}. Is it right?',
  'doubt.piece.length':
    'With this piece of {{text}}, {{length}} more core lie on the bench than {{name}} drilled. Is it right?',
  'doubt.piece.loss':
    'Lost ice of {{loss}} is given, but the break above is logged as "{{break}}". Is ice lost there?',
  'doubt.tray.backwards': 'The places on the tape do not run from the top down. Is one misread?',
  'doubt.tray.count_one':
    '{{name}} has {{count}} piece, so {{wanted}} places are expected; {{places}} are given. Is one missing or one too many?',
  'doubt.tray.count_other':
    '{{name}} has {{count}} pieces, so {{wanted}} places are expected; {{places}} are given. Is one missing or one too many?',
  'doubt.tray.outgrown_one':
    'The tape along the tray of {{name}} was read for {{count}} piece; with this one it counts no more. Is it another piece?',
  'doubt.tray.outgrown_other':
    'The tape along the tray of {{name}} was read for {{count}} pieces; with this one it counts no more. Is it another piece?',
  'doubt.tray.long': '{{length}} of core lie along the tape, {{name}} drilled {{drilled}}. Is it right?',
  'doubt.feature.beyond': 'This ends {{at}} from the end of {{name}}, which is {{length}} long. Is it right?',
  'doubt.scratch.beyond':
    'The scratch lies {{at}} below the top of a piece that is {{length}} long. Is it right?',
  'slip.piece.number': 'Piece {{number}}',
  'slip.ice.lost': 'Ice is lost there',
} as const;
