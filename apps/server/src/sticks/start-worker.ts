export { startThread as startWorker } from '@firnbook/storage/sqlite';
