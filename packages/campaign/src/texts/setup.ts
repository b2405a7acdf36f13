/** Setting up: campaign, crew, holes. */
export const setupTexts = {
  'refuse.no.crew': 'Nobody is named.',
  'mend.no.crew': 'Give the initials of at least one person.',
  'doubt.initials.there': 'Somebody else signs as {{initials}}. Is it the same person?',
  'doubt.letter.there': 'There is a hole {{letter}} already. Is it the same one?',
} as const;
