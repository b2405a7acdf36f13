const QUOTE = 0x22;

/**
 * Different texts of a column, each kept once as the place of its bytes in the file. Nothing is decoded before
 * somebody asks: a million names of samples cost no million strings.
 */
export class TextPool {
  readonly #bytes: Uint8Array;
  readonly #decoder: InstanceType<typeof TextDecoder>;
  /** Open addressing; 0 is free, else the code. Length is a power of two. */
  #slots = new Uint32Array(64);
  #hashes = new Uint32Array(32);
  #starts = new Uint32Array(32);
  #ends = new Uint32Array(32);
  /** Whether quotation marks inside are written twice. */
  #doubled = new Uint8Array(32);
  /** Code 0 is the empty text. */
  #size = 1;

  constructor(bytes: Uint8Array, label: string) {
    this.#bytes = bytes;
    this.#decoder = new TextDecoder(label);
  }

  get size(): number {
    return this.#size;
  }

  /** Code of the text in these bytes, which are not empty. */
  code(from: number, to: number, isQuoted: boolean): number {
    const bytes = this.#bytes;
    // FNV-1a (Fowler, Noll, Vo; RFC 9923), 32 bits
    let hash = 0x811c9dc5;
    let hasQuote = false;
    for (let at = from; at < to; at++) {
      const code = bytes[at]!;
      if (code === QUOTE) hasQuote = true;
      hash = Math.imul(hash ^ code, 0x01000193);
    }
    hash >>>= 0;
    const doubled = hasQuote && isQuoted ? 1 : 0;
    const mask = this.#slots.length - 1;
    for (let slot = (hash ^ (hash >>> 15)) & mask; ; slot = (slot + 1) & mask) {
      const code = this.#slots[slot]!;
      if (code === 0) return this.#add(hash, from, to, doubled, slot);
      if (this.#hashes[code] === hash && this.#doubled[code] === doubled && this.#isSame(code, from, to))
        return code;
    }
  }

  text(code: number): string {
    if (code === 0) return '';
    const text = this.#decoder.decode(this.#bytes.subarray(this.#starts[code], this.#ends[code]));
    return this.#doubled[code] === 1 ? text.replaceAll('""', '"') : text;
  }

  #isSame(code: number, from: number, to: number): boolean {
    const start = this.#starts[code]!;
    if (this.#ends[code]! - start !== to - from) return false;
    for (let i = to - from - 1; i >= 0; i--)
      if (this.#bytes[start + i] !== this.#bytes[from + i]) return false;
    return true;
  }

  #add(hash: number, from: number, to: number, doubled: number, slot: number): number {
    const code = this.#size++;
    if (code >= this.#hashes.length) this.#grow();
    this.#hashes[code] = hash;
    this.#starts[code] = from;
    this.#ends[code] = to;
    this.#doubled[code] = doubled;
    this.#slots[slot] = code;
    if (2 * this.#size > this.#slots.length) this.#spread();
    return code;
  }

  #grow(): void {
    const room = 2 * this.#hashes.length;
    const larger = (old: Uint32Array): Uint32Array => {
      const list = new Uint32Array(room);
      list.set(old);
      return list;
    };
    this.#hashes = larger(this.#hashes) as Uint32Array<ArrayBuffer>;
    this.#starts = larger(this.#starts) as Uint32Array<ArrayBuffer>;
    this.#ends = larger(this.#ends) as Uint32Array<ArrayBuffer>;
    const doubled = new Uint8Array(room);
    doubled.set(this.#doubled);
    this.#doubled = doubled;
  }

  #spread(): void {
    const slots = new Uint32Array(2 * this.#slots.length);
    const mask = slots.length - 1;
    for (let code = 1; code < this.#size; code++) {
      const hash = this.#hashes[code]!;
      let slot = (hash ^ (hash >>> 15)) & mask;
      while (slots[slot] !== 0) slot = (slot + 1) & mask;
      slots[slot] = code;
    }
    this.#slots = slots;
  }
}
