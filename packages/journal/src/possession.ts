import { hashText } from './hash.ts';

/**
 * What a device signs with its key to show that the key is its own (Ed25519 over the UTF-8 bytes).
 *
 * @param challenge that the other side made for this one question: a pairing secret, or a word of the camp computer
 */
export function possessionText(challenge: string): string {
  // No entry begins like this: what is signed here can't be taken for one (they are JSON objects).
  return `Firnbook: this key is mine ${hashText(challenge)}`;
}
