import type { BrowserAttachments } from '@firnbook/storage/browser';
import type { Camp } from './camp.ts';

/** Photographs of one campaign: kept on this device first, then brought to the camp computer. */
export interface Files {
  /** Keeps a file; resolves with its SHA-256 once it is on this device. */
  keep(file: Blob): Promise<string>;
  /** Bytes that are on this device; null where they are not. */
  here(sha256: string): Promise<Uint8Array<ArrayBuffer> | null>;
  /** Keeps bytes that another device had; resolves once they are on this one. */
  put(bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** From this device, else from the camp computer; null where neither has it. */
  read(sha256: string): Promise<Blob | null>;
  /** Brings what the camp computer has not confirmed. Joins what goes on already; never rejects. */
  send(): Promise<void>;
}

export function startFiles(
  campaign: string,
  camp: Pick<Camp, 'putFile' | 'getFile'>,
  open: (campaign: string) => Promise<BrowserAttachments>,
): Files {
  let opened: Promise<BrowserAttachments> | null = null;
  let going: Promise<void> | null = null;
  // Opened at the first exchange or picture; a store that failed is tried again.
  const store = () => {
    opened ??= open(campaign).catch((error: unknown) => {
      opened = null;
      throw error;
    });
    return opened;
  };

  const sendAll = async (): Promise<void> => {
    const files = await store();
    for (const sha256 of await files.unsent()) {
      const bytes = await files.get(sha256);
      if (bytes === null) continue;
      await camp.putFile(campaign, sha256, bytes);
      await files.confirm(sha256);
    }
  };

  const send = (): Promise<void> => {
    going ??= sendAll()
      // The camp computer is away, or has no room: the file waits here for the next exchange.
      .catch(() => undefined)
      .finally(() => {
        going = null;
      });
    return going;
  };

  return {
    send,
    async keep(file) {
      const files = await store();
      const sha256 = await files.put(new Uint8Array(await file.arrayBuffer()));
      void send();
      return sha256;
    },
    here: async (sha256) => (await store()).get(sha256),
    async put(bytes) {
      await (await store()).put(bytes);
      void send();
    },
    async read(sha256) {
      const bytes = (await (await store()).get(sha256)) ?? (await camp.getFile(campaign, sha256));
      return bytes === null ? null : new Blob([bytes]);
    },
  };
}
