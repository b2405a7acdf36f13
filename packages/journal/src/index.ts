export { canonical, parse } from './canonical.ts';
export { FIRST_STAMP, hear, isStamp, readStamp, stampAhead, tick } from './clock.ts';
export { type Coverage, coverageOf, type Have, haveOf, type Unsure } from './coverage.ts';
export { digest, digestOf } from './digest.ts';
export type { Draft, Entry, Header, Json, JsonObject, Sealed } from './entry.ts';
export {
  accept,
  admit,
  LIMIT,
  type Limit,
  offer,
  PROTOCOL,
  type Refused,
  type Reply,
  type Request,
} from './exchange.ts';
export { createFold, type Fold, type FoldFailure, type FoldRules } from './fold.ts';
export { hashBytes, hashText } from './hash.ts';
export { restingIn } from './holdings.ts';
export { newId, newSalt, type Source } from './ids.ts';
export { type Chain, createLedger, type Fork, type Head, type Ledger } from './ledger.ts';
export {
  copyMemoryDisk,
  createMemoryDisk,
  createMemoryStore,
  type MemoryDisk,
  type MemoryFault,
  type MemoryFaults,
} from './memory-store.ts';
export { compareEntries, placeOf } from './order.ts';
export { possessionText } from './possession.ts';
export { type DamagedRow, openReplica, type Replica, type ReplicaOptions } from './replica.ts';
export { type Listed, type Revoked, type Since, weighRevoked } from './revocation.ts';
export { ENTRY_BYTES_LIMIT, type Opened, open, type Place, reopen, seal, withhold } from './seal.ts';
export {
  claimOf,
  createKeys,
  type Keys,
  NOT_ITS_KEY,
  type Proof,
  type Signer,
  type Verify,
} from './signature.ts';
export type { Store } from './store.ts';
export type { Heard, Safety, Taken, Talk } from './talk.ts';
export { type Read, readHave, readReply, readRequest } from './wire.ts';
