import { hash } from 'node:crypto';
import type { Sealed } from '@firnbook/journal';

/**
 * The running digest after one more row, lower-case hex SHA-256. It covers what the entry's own hash doesn't:
 * the place in the file, the signature, and whether the body is there. The body's bytes are covered by the head.
 */
export function nextTrail(before: string, position: number, sealed: Sealed): string {
  const body = sealed.body === null ? 'withheld' : 'held';
  return hash('sha256', `${before}\n${position}\n${sealed.hash}\n${body}\n${sealed.signature ?? ''}`);
}
