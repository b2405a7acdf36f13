import { askFiles, mayHaveFiles } from './file-thread.ts';

/** Files in the browser's own file system, each written once as a whole. */
interface WholeFiles {
  names(): Promise<readonly string[]>;
  read(name: string): Promise<Uint8Array<ArrayBuffer>>;
  /** Resolves when the file is flushed. */
  write(name: string, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  remove(name: string): Promise<void>;
}

/** Opens the files whose names begin so; null where this browser or address offers no files. */
export type OpenWholeFiles = (prefix: string) => Promise<WholeFiles | null>;

export const openWholeFiles: OpenWholeFiles = async (prefix) => {
  if (!mayHaveFiles()) return null;
  const files: WholeFiles = {
    names: async () => {
      const names = (await askFiles({ do: 'list', name: prefix })) as readonly string[];
      return names.map((name) => name.slice(prefix.length));
    },
    read: (name) => askFiles({ do: 'read', name: prefix + name }) as Promise<Uint8Array<ArrayBuffer>>,
    write: async (name, bytes) => void (await askFiles({ do: 'write', name: prefix + name, bytes })),
    remove: async (name) => void (await askFiles({ do: 'remove', name: prefix + name })),
  };
  try {
    await files.names();
    return files;
  } catch {
    return null;
  }
};
