/** A server in a process of its own, for tests that kill it: prints its address, stops on SIGTERM. */
import { startServer } from './start.ts';

const [dataFolder = '', webFolder = ''] = process.argv.slice(2);
const log = (line: string) => process.stderr.write(`${line}\n`);
const server = await startServer({ dataFolder, webFolder, port: 0, log });
process.stdout.write(`${server.address}\n`);
process.once('SIGTERM', () => void server.close().then(() => process.exit(0)));
