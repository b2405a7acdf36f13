export { isTrouble, type StoreTrouble, type TroubleKind, trouble } from '../trouble.ts';
export { type AttachmentPieces, openAttachmentPieces, PIECE_BYTES } from './attachment-pieces.ts';
export { type AttachmentState, type Attachments, openAttachments } from './attachments.ts';
export {
  type Backup,
  type BackupRecord,
  backedUpCampaigns,
  backUp,
  backupRecord,
  listBackups,
  readBackup,
} from './backup.ts';
export { layBallast, releaseBallast } from './ballast.ts';
export { type CapacityStep, type CapacityTest, testCapacity } from './capacity.ts';
export { openDeviceKey } from './device-key.ts';
export { verifyEd25519 } from './ed25519.ts';
export {
  backUpFiles,
  type FilesBackup,
  listFilesBackups,
  readFilesBackup,
  restoreFiles,
} from './files-backup.ts';
export { type CampaignPaths, campaignPaths, isCampaignId, listCampaigns } from './folder.ts';
export { type FolderLock, lockFolder } from './lock.ts';
export { type Restored, restore } from './restore.ts';
export { nameStick, readStick, type Stick } from './stick.ts';
export { openSqliteStore, openSqliteStoreInTurns, type SqliteStore } from './store.ts';
export { thinBackups } from './thin-backups.ts';
export { startThread } from './thread.ts';
export { type Finding, verifyJournal } from './verify.ts';
export { type SignedVerdict, verifySigned } from './verify-signed.ts';
