import { startServer } from '@firnbook/server';

/** serve.ts DATA-FOLDER WEB-FOLDER PORT [MEDIA]: the camp computer's server; says "ready ADDRESS" when it listens. */
const [dataFolder, webFolder, port, media] = process.argv.slice(2);
if (dataFolder === undefined || webFolder === undefined || port === undefined) {
  throw new Error('serve.ts needs a data folder, a folder of screens and a port.');
}
const server = await startServer({
  dataFolder,
  webFolder,
  port: Number(port),
  ...(media !== undefined && { media: [media] }),
  log: (line) => process.stderr.write(`${line}\n`),
});
process.stdout.write(`ready ${server.address}\n`);
process.once('SIGTERM', () => void server.close().then(() => process.exit(0)));
