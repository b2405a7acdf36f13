import { createReadStream, existsSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';

const types: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript' };

export interface PagesServer {
  readonly address: string;
  close(): void;
}

/** As the camp computer sends them: pages and their workers may share memory. */
const isolated = {
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
};

/** Serves a folder on this computer alone. */
export async function servePages(folder: string): Promise<PagesServer> {
  const server = createServer((request, response) => {
    const path = join(folder, normalize(new URL(request.url ?? '/', 'http://x').pathname));
    if (!path.startsWith(folder) || !existsSync(path)) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, {
      'content-type': types[extname(path)] ?? 'application/octet-stream',
      ...isolated,
    });
    createReadStream(path).pipe(response);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const bound = server.address();
  if (bound === null || typeof bound === 'string') throw new Error('The server has no port.');
  return {
    address: `http://127.0.0.1:${bound.port}`,
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}
