/** Bytes of a file and the name to call it by. */
export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}
