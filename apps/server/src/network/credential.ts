import type { FastifyReply, FastifyRequest } from 'fastify';

// The prefix makes browsers refuse it from plain http, from another host, or for a part of the addresses alone.
const name = '__Host-firnbook';
/** 400 days, the most that Chromium keeps a cookie; given anew at each start of the screens. */
const maxAge = 400 * 86_400;

/** The credential that a device sends; null where there is none, or something that can't be one. */
export function credentialIn(request: FastifyRequest): string | null {
  const found = /(?:^|;\s*)__Host-firnbook=([\w-]{43})(?:;|$)/.exec(request.headers.cookie ?? '');
  return found?.[1] ?? null;
}

export function giveCredential(reply: FastifyReply, credential: string): FastifyReply {
  const parts = [`${name}=${credential}`, 'Path=/', `Max-Age=${maxAge}`, 'Secure', 'HttpOnly'];
  return reply.header('set-cookie', [...parts, 'SameSite=Strict'].join('; '));
}
