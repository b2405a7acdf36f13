export { isTrouble, type StoreTrouble, type TroubleKind } from '../trouble.ts';
export { type AttachmentState, type Attachments, openAttachments } from './attachments.ts';
export { type Backup, type BackupRecord, backUp, listBackups, readBackup } from './backup.ts';
export { layBallast, releaseBallast } from './ballast.ts';
export { type CampaignPaths, campaignPaths, isCampaignId, listCampaigns } from './folder.ts';
export { type FolderLock, lockFolder } from './lock.ts';
export { type Restored, restore } from './restore.ts';
export { openSqliteStore, type SqliteStore } from './store.ts';
export { type Finding, type Verdict, verifyJournal } from './verify.ts';
