/** upgrade-open.ts FILE CAMPAIGN: opens a journal as every start does, which brings it to this program's version. */
import { openSqliteStore } from '@firnbook/storage/sqlite';

const [file = '', campaign = ''] = process.argv.slice(2);
const store = openSqliteStore(file, campaign);
await store.close();
process.stdout.write(`open ${store.damage.length}\n`);
