/** What a traced process did to files, in order. */
export type Operation =
  | { readonly do: 'write'; readonly file: string; readonly at: number; readonly bytes: Uint8Array }
  | { readonly do: 'cut'; readonly file: string; readonly length: number }
  | { readonly do: 'flush'; readonly file: string }
  /** The kernel forgets what it could not write: a later flush that goes well does not bring it back. */
  | { readonly do: 'failed flush'; readonly file: string }
  | { readonly do: 'remove'; readonly file: string }
  | { readonly do: 'ack'; readonly entries: number };

/** Arguments for strace so that `readTrace` understands: whole bytes as hex, descriptors with their paths. */
export const traceArguments = (output: string): readonly string[] => [
  ...['-f', '-y', '-xx', '-s', '1000000', '-e', 'signal=none', '-o', output],
  ...['-e', 'trace=pwrite64,pwritev,write,ftruncate,truncate,fsync,fdatasync,unlink,unlinkat,rename'],
];

const unhex = (text: string): Uint8Array => Buffer.from(text.replaceAll('\\x', ''), 'hex');
/** With -xx strace prints paths as hex too. */
const pathOf = (text: string): string =>
  text.startsWith('\\x') ? Buffer.from(unhex(text)).toString() : text;

const write = /^\d+ +pwrite64\(\d+<([^>]*)>, "([^"]*)", \d+, (\d+)\) += (\d+)$/;
const said = /^\d+ +write\(\d+<([^>]*)>, "([^"]*)", \d+\) +=/;
const flush = /^\d+ +f(?:data)?sync\(\d+<([^>]*)>\) += 0$/;
const failedFlush = /^\d+ +f(?:data)?sync\(\d+<([^>]*)>\) += -1 /;
const cut = /^\d+ +ftruncate\(\d+<([^>]*)>, (\d+)\) += 0$/;
const remove = /^\d+ +unlink\("([^"]*)"\) += 0$/;

/** strace breaks a call in two where threads interleave; the two halves are joined again. */
function joined(trace: string): readonly string[] {
  const open = new Map<string, string>();
  const lines: string[] = [];
  for (const line of trace.split('\n')) {
    const pid = /^\d+/.exec(line)?.[0] ?? '';
    const unfinished = / <unfinished \.\.\.>$/.exec(line);
    if (unfinished !== null) {
      open.set(pid, line.slice(0, unfinished.index));
      continue;
    }
    const resumed = /^\d+ +<\.\.\. \w+ resumed>(.*)$/.exec(line);
    lines.push(resumed === null ? line : `${open.get(pid) ?? ''}${resumed[1]}`);
  }
  return lines;
}

/**
 * The operations of a trace on files whose path passes.
 *
 * @throws Error for a call on such a file that nobody taught this reader: a state would be missing
 */
export function readTrace(trace: string, isOurs: (path: string) => boolean): readonly Operation[] {
  const operations: Operation[] = [];
  for (const line of joined(trace)) {
    const wrote = write.exec(line);
    if (wrote !== null) {
      const file = pathOf(wrote[1]!);
      if (isOurs(file))
        operations.push({
          do: 'write',
          file,
          at: Number(wrote[3]),
          bytes: unhex(wrote[2]!).subarray(0, Number(wrote[4])),
        });
      continue;
    }
    const acknowledged = said.exec(line);
    if (acknowledged !== null) {
      if (!pathOf(acknowledged[1]!).endsWith('/acks')) continue;
      const ack = /^ack (\d+)/.exec(Buffer.from(unhex(acknowledged[2]!)).toString());
      if (ack !== null) operations.push({ do: 'ack', entries: Number(ack[1]) });
      continue;
    }
    const flushed = flush.exec(line);
    const failed = failedFlush.exec(line);
    const shortened = cut.exec(line);
    const removed = remove.exec(line);
    const file = pathOf((flushed ?? failed ?? shortened ?? removed)?.[1] ?? '');
    if (file === '' || !isOurs(file)) {
      if (/pwritev|truncate\("|rename\(/.test(line) && / = 0$/.test(line)) {
        const named = [...line.matchAll(/"([^"]*)"/g)].map(([, path]) => pathOf(path!));
        if (named.some(isOurs))
          throw new Error(`The trace holds a call that is not understood: ${line.slice(0, 200)}`);
      }
      continue;
    }
    if (flushed !== null) operations.push({ do: 'flush', file });
    else if (failed !== null) operations.push({ do: 'failed flush', file });
    else if (shortened !== null) operations.push({ do: 'cut', file, length: Number(shortened[2]) });
    else operations.push({ do: 'remove', file });
  }
  return operations;
}
