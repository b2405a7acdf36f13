import { Worker } from 'node:worker_threads';

/**
 * Starts a thread. Run from the sources (the tests do), it needs their loader first.
 *
 * @param built its file as it lies beside the built caller
 */
export function startThread(built: URL, workerData: unknown): Worker {
  if (!import.meta.url.endsWith('.ts')) return new Worker(built, { workerData });
  const source = built.href.replace(/\.js$/, '.ts');
  const loader = import.meta.resolve('tsx/esm/api');
  const load = `import(${JSON.stringify(loader)}).then(({ register }) => { register(); return import(${JSON.stringify(source)}); })`;
  return new Worker(load, { workerData, eval: true, execArgv: ['--conditions=source'] });
}
