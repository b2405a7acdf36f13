// Import rules over the whole tree, made from the table in rooms.mjs.
import { mayImport, pureRooms } from './rooms.mjs';

const notTests = '\\.(test|suite)\\.tsx?$';
const ours = '^(packages|apps|demo|bench|docs|tools)/';

const arrows = Object.entries(mayImport).map(([room, allowed]) => ({
  name: `arrows-of-${room.replace('/', '-')}`,
  severity: 'error',
  comment: `${room} may import ${allowed.length > 0 ? allowed.join(', ') : 'nothing of ours'}.`,
  from: { path: `^${room}/`, pathNot: notTests },
  to: { path: ours, pathNot: [room, ...allowed].map((name) => `^${name}/`) },
}));

export default {
  forbidden: [
    ...arrows,
    {
      name: 'no-circle',
      severity: 'error',
      comment: 'Type imports count.',
      from: {},
      to: { circular: true },
    },
    {
      name: 'resolves',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '\\.css$|^virtual:' },
    },
    {
      name: 'web-sees-the-browser-store-only',
      severity: 'error',
      from: { path: '^apps/web/', pathNot: notTests },
      to: { path: '^packages/storage/src/', pathNot: '^packages/storage/src/browser/' },
    },
    {
      name: 'pure-rooms-use-no-node-modules',
      severity: 'error',
      from: { path: pureRooms.map((room) => `^${room}/`), pathNot: notTests },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'browser-store-uses-no-node-modules',
      severity: 'error',
      from: { path: '^(packages/storage/src/browser|apps/web/src)/', pathNot: notTests },
      to: { dependencyTypes: ['core'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '/dist/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.tests.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['source', 'import', 'node', 'default'],
    },
  },
};
