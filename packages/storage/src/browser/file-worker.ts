import type { FileJob, FileReply, FirstWord } from './file-thread.ts';
import { type Gate, gated } from './leaving.ts';
import { addLines, endOf, type OpenFile, pageOf, readBytes, writeBytes } from './lines.ts';
import { layMore, letGo, probe, sing } from './room-files.ts';

/** The DOM's types know only what pages may do; a worker may also write in place and flush. */
interface WorkerFile {
  createSyncAccessHandle(): Promise<OpenFile & { close(): void }>;
}

/** The DOM's types do not know yet that a folder can be walked. */
interface Walkable {
  keys(): AsyncIterable<string>;
}

let gate: Gate | null = null;

/** The thread that keeps files: browsers write in place, and flush, in a worker only. */
self.addEventListener('message', (event: MessageEvent<FirstWord | (FileJob & { readonly id: number })>) => {
  if ('gate' in event.data) {
    gate = event.data.gate;
    return;
  }
  const { id, ...job } = event.data;
  const reply = (answer: FileReply) => self.postMessage(answer);
  run(job).then(
    (result) => reply({ id, result }),
    (error: unknown) => {
      const { name, message } = error instanceof Error ? error : new Error(String(error));
      reply({ id, error: { name, message } });
    },
  );
});

/** One tab at a time has a file open; that is the browser's rule, and waiting for it is ours. */
function run(job: FileJob): Promise<unknown> {
  return navigator.locks.request(`firnbook-file-${job.name}`, async () => {
    const folder = await navigator.storage.getDirectory();
    if (job.do === 'list') {
      const names: string[] = [];
      for await (const name of (folder as unknown as Walkable).keys())
        if (name.startsWith(job.name)) names.push(name);
      return names;
    }
    if (job.do === 'remove') return folder.removeEntry(job.name);
    const handle = await folder.getFileHandle(job.name, { create: job.do !== 'read' });
    const open = await (handle as unknown as WorkerFile).createSyncAccessHandle();
    const file = gate === null ? open : gated(open, gate);
    try {
      if (job.do === 'end') return endOf(file);
      if (job.do === 'page') return pageOf(file, job.from);
      if (job.do === 'add') return addLines(file, job.lines, job.size);
      if (job.do === 'read') return readBytes(file, 0, file.getSize());
      if (job.do === 'lay') return layMore(file, job.size);
      if (job.do === 'sing') return sing(file, job.count, job.isFlushed);
      if (job.do === 'probe') return probe(file, job.count);
      if (job.do === 'let go') return letGo(file);
      return writeBytes(file, job.bytes, 0);
    } finally {
      open.close();
    }
  });
}
