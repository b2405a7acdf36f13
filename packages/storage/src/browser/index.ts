export { isTrouble, type StoreTrouble, type TroubleKind } from '../trouble.ts';
export { announce, listen } from './announce.ts';
export { type BrowserAttachments, openBrowserAttachments } from './attachments.ts';
export { exclusive } from './exclusive.ts';
export { askPersistence, type Persistence } from './persistence.ts';
export { type HeldCampaign, heldCampaigns, holdCampaign } from './registry.ts';
export { type BrowserStore, openBrowserStore } from './store.ts';
