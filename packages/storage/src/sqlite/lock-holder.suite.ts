/** Takes the lock of a folder and waits to be killed: for lock.test.ts. */
import { lockFolder } from './lock.ts';

lockFolder(process.argv[2] ?? '', 'the holder');
process.stdout.write('held\n');
setInterval(() => undefined, 1000);
