import { fileURLToPath } from 'node:url';

/** Programs that a test starts as processes of their own: where they lie between the room and the ending. */
const children = {
  load: ['bench', 'reliability/load'],
  serve: ['bench', 'serve'],
  share: ['bench', 'reliability/share'],
  'upgrade-open': ['bench', 'reliability/upgrade-open'],
  writer: ['bench', 'reliability/writer'],
  // The command that a person gives.
  firnbook: ['apps/cli', 'main'],
} as const;

type Child = keyof typeof children;

/** A child that runs what was built goes on with that. */
let isBuilt = import.meta.url.endsWith('.js');

/** From now on children run what `npm run build` made: it starts in a third of the time, thousands of times. */
export const useBuilt = (): void => {
  isBuilt = true;
};

/**
 * Node's whole command for a child, to which its arguments are added.
 *
 * @param preload modules that make the child a wrong one
 */
export function childCommand(child: Child, preload: readonly string[] = []): readonly string[] {
  const [room, file] = children[child];
  const [flags, folder, ending] = isBuilt
    ? [[], 'dist', 'js']
    : [['--import', 'tsx', '--conditions=source'], 'src', 'ts'];
  return [
    ...[process.execPath, ...flags],
    ...preload.flatMap((module) => ['--import', module]),
    fileURLToPath(new URL(`../../../${room}/${folder}/${file}.${ending}`, import.meta.url)),
  ];
}
