import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { childCommand } from './child-command.ts';
import type { Kinds } from './share.ts';

type Plan<Kind extends keyof Kinds> = Parameters<Kinds[Kind]>[0];
type Figures<Kind extends keyof Kinds> = Awaited<ReturnType<Kinds[Kind]>>;

/** Does the shares of a part's work in processes of their own, as many at once as there are cores; adds the figures up. */
export async function inShares<Kind extends keyof Kinds>(
  kind: Kind,
  plans: readonly Plan<Kind>[],
): Promise<Figures<Kind>> {
  const waiting = [...plans];
  const done: Figures<Kind>[] = [];
  const core = async (): Promise<void> => {
    for (let plan = waiting.shift(); plan !== undefined; plan = waiting.shift())
      done.push((await doShare(kind, plan)) as Figures<Kind>);
  };
  await Promise.all(Array.from({ length: availableParallelism() }, core));
  return done.reduce(added);
}

async function doShare(kind: string, plan: object): Promise<unknown> {
  const [command = '', ...args] = childCommand('share');
  const child = spawn(command, [...args, kind, JSON.stringify(plan)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', (chunk) => {
    said += String(chunk);
  });
  const [code] = await once(child, 'close');
  if (code !== 0) throw new Error(`a share of "${kind}" ended with ${String(code)}: ${JSON.stringify(plan)}`);
  return JSON.parse(said);
}

const added = <Some extends object>(a: Some, b: Some): Some =>
  Object.fromEntries(
    Object.entries(a).map(([name, value]) => [name, value + (b as Record<string, number>)[name]!]),
  ) as Some;
