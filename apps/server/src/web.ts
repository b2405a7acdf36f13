import { existsSync } from 'node:fs';
import { basename, join, sep } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { complain } from './answers.ts';

/** The bundler puts a digest of the content into these names, so a name's content never changes. */
const hashed = `${sep}assets${sep}`;

/**
 * Serves the built screens, and the method site in a folder of its own. An address without a file behind it is a
 * screen's own address and gets index.html; a missing file (an old page asking for a script of its version) is a plain 404, not a page in disguise.
 */
export async function serveWeb(app: FastifyInstance, folder: string): Promise<void> {
  const built = existsSync(join(folder, 'index.html'));
  if (built)
    await app.register(fastifyStatic, {
      root: folder,
      serve: false,
      cacheControl: false,
      dotfiles: 'ignore',
      setHeaders: (response, path) => {
        const forever = path.includes(hashed) && basename(path) !== 'index.html';
        response.header('cache-control', forever ? 'public, max-age=31536000, immutable' : 'no-cache');
      },
    });

  app.get('/*', { config: { policy: 'anyone' } }, async (request, reply) => {
    const path = request.url.split('?', 1)[0] ?? '/';
    if (!built)
      return complain(reply, 404, {
        what: 'The screens are not built',
        where: path.slice(0, 200),
        mend: 'Run: npm run build',
      });
    const wanted = (request.params as { '*': string })['*'];
    if (/^method\/?$/.test(wanted)) return reply.redirect('/method/index.html');
    // No screen lies there: a program that asks for a route of another version must not get a page.
    if (wanted.startsWith('api/')) return reply.callNotFound();
    const isFile = /\.[a-z0-9]+$/i.test(wanted);
    return reply.sendFile(isFile ? wanted : 'index.html');
  });
}
