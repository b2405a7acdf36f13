/** Who may import whom (ARCHITECTURE.md, "Rooms and arrows"). The checks and the docs speak of this one table. */
const libraries = [
  'packages/science',
  'packages/journal',
  'packages/campaign',
  'packages/drawing',
  'packages/storage',
  'packages/exchange',
];

export const mayImport = {
  'packages/science': [],
  'packages/journal': [],
  'packages/campaign': ['packages/science', 'packages/journal'],
  'packages/drawing': ['packages/science', 'packages/campaign'],
  'packages/storage': ['packages/journal'],
  'packages/exchange': ['packages/science', 'packages/journal', 'packages/campaign', 'packages/drawing'],
  demo: libraries,
  // The pages show the published numbers beside ours.
  docs: ['packages/science', 'packages/drawing', 'bench'],
  'apps/server': libraries,
  'apps/web': libraries,
  // The command line starts the server and fills an empty book with the demo.
  'apps/cli': [...libraries, 'apps/server', 'demo'],
  bench: [...libraries, 'apps/server', 'demo'],
};

/** Rooms whose results depend on their arguments alone. */
export const pureRooms = ['packages/science', 'packages/journal', 'packages/campaign', 'packages/drawing'];
