export type { Draft, Entry, Header, Json, JsonObject, Sealed } from './entry.ts';
export type { Store } from './store.ts';
