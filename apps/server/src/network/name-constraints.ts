import { isIPv4 } from 'node:net';

/** A range of addresses: "192.168.0.0" and 16. */
export interface AddressRange {
  readonly address: string;
  readonly bits: number;
}

/** Addresses that no public network has: RFC 1918 section 3, RFC 3927 (link-local), RFC 4193 (fc00::/7). */
export const privateRanges: readonly AddressRange[] = [
  { address: '10.0.0.0', bits: 8 },
  { address: '172.16.0.0', bits: 12 },
  { address: '192.168.0.0', bits: 16 },
  { address: '169.254.0.0', bits: 16 },
  { address: 'fc00::', bits: 7 },
];

export function isWithin(address: string, range: AddressRange): boolean {
  const a = bytesOf(address);
  const b = bytesOf(range.address);
  const mask = maskOf(a.length, range.bits);
  return a.length === b.length && a.every((byte, index) => ((byte ^ b[index]!) & mask[index]!) === 0);
}

/**
 * The value of the nameConstraints extension (RFC 5280 section 4.2.1.10): certificates under this authority may name
 * these hosts, what lies below them, and addresses in these ranges, and no other hosts or addresses.
 */
export function nameConstraints(hosts: readonly string[], ranges: readonly AddressRange[]): Uint8Array {
  const permitted = [
    ...hosts.map((host) => tagged(0x82, ascii(host))),
    ...ranges.map(({ address, bits }) => {
      const bytes = bytesOf(address);
      return tagged(0x87, Uint8Array.from([...bytes, ...maskOf(bytes.length, bits)]));
    }),
  ];
  // Minimum 0 is the default and is left out (DER).
  const subtrees = permitted.map((name) => tagged(0x30, name));
  return tagged(0x30, tagged(0xa0, joined(subtrees)));
}

/** 4 or 16 bytes. */
export function bytesOf(address: string): Uint8Array {
  if (isIPv4(address)) return Uint8Array.from(address.split('.').map(Number));
  const [before = '', after] = address.replace(/%.*$/, '').split('::');
  const head = groups(before);
  const tail = groups(after ?? '');
  const middle = after === undefined ? 0 : 8 - head.length - tail.length;
  const all = [...head, ...Array<number>(middle).fill(0), ...tail];
  return Uint8Array.from(all.flatMap((group) => [group >> 8, group & 0xff]));
}

const groups = (text: string): number[] =>
  text === '' ? [] : text.split(':').map((group) => Number.parseInt(group, 16));

const maskOf = (length: number, bits: number): Uint8Array =>
  Uint8Array.from({ length }, (_, index) => (0xff00 >> Math.min(8, Math.max(0, bits - 8 * index))) & 0xff);

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (sign) => sign.charCodeAt(0));

/** One DER element. */
function tagged(tag: number, content: Uint8Array): Uint8Array {
  const { length } = content;
  const size =
    length < 0x80 ? [length] : length < 0x100 ? [0x81, length] : [0x82, length >> 8, length & 0xff];
  return Uint8Array.from([tag, ...size, ...content]);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  return Uint8Array.from(parts.flatMap((part) => [...part]));
}
