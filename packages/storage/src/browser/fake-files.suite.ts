import type { OpenLineFile } from './line-file.ts';
import { addLines, endOf, type OpenFile, pageOf } from './lines.ts';

/** A file in memory that can be torn and spoilt. */
export class FakeFile implements OpenFile {
  bytes = new Uint8Array(0);
  /** Bytes that fit on its disk. */
  room = Number.POSITIVE_INFINITY;

  getSize(): number {
    return this.bytes.length;
  }
  read(into: Uint8Array, { at }: { at: number }): number {
    const part = this.bytes.subarray(at, at + into.length);
    into.set(part);
    return part.length;
  }
  write(bytes: Uint8Array, { at }: { at: number }): number {
    const part = bytes.subarray(0, Math.max(0, this.room - at));
    const grown = new Uint8Array(Math.max(this.bytes.length, at + part.length));
    grown.set(this.bytes);
    grown.set(part, at);
    this.bytes = grown;
    return part.length;
  }
  truncate(size: number): void {
    this.bytes = this.bytes.slice(0, size);
  }
  flush(): void {}
}

/** A disk of such files, by name. */
export function lendFiles(): { readonly open: OpenLineFile; readonly files: Map<string, FakeFile> } {
  const files = new Map<string, FakeFile>();
  const open: OpenLineFile = async (name) => {
    const file = files.get(name) ?? new FakeFile();
    files.set(name, file);
    return {
      end: async () => endOf(file),
      page: async (from) => pageOf(file, from),
      add: async (lines, size) => addLines(file, lines, size),
    };
  };
  return { open, files };
}
