import { isTrouble, type TroubleKind } from '@firnbook/storage/sqlite';
import type { FastifyError, FastifyReply } from 'fastify';

/** Every answer that isn't a success: what, where, what to do. Nothing of the program's inside goes out. */
export interface Complaint {
  readonly what: string;
  readonly where: string;
  readonly mend: string;
}

const statusOf: Readonly<Record<TroubleKind, number>> = {
  closed: 503,
  damaged: 503,
  'disk full': 507,
  locked: 503,
  missing: 404,
  'newer version': 503,
  refused: 400,
  'unknown fate': 503,
  unsafe: 503,
};

/** Words for what the web framework refuses by itself. */
const framework: Readonly<Record<string, Omit<Complaint, 'where'>>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: { what: 'The message is too large', mend: 'Send it in smaller parts.' },
  FST_ERR_CTP_INVALID_MEDIA_TYPE: {
    what: 'The content type is not one that this address takes',
    mend: 'Send application/json; attachments as application/octet-stream.',
  },
  FST_ERR_CTP_EMPTY_JSON_BODY: { what: 'The message is empty', mend: 'Send a JSON object.' },
  FST_ERR_CTP_INVALID_JSON_BODY: { what: 'The message is not JSON', mend: 'Send a JSON object.' },
};

/** Codes of a connection that ended before the message or its answer was through. */
const cut = ['ERR_STREAM_PREMATURE_CLOSE', 'ECONNRESET', 'ECONNABORTED', 'EPIPE'];

export function complain(reply: FastifyReply, status: number, complaint: Complaint): FastifyReply {
  return reply.code(status).header('cache-control', 'no-store').send(complaint);
}

/** Turns whatever was thrown into a complaint; what nobody foresaw goes to the log and out as 'unknown fate'. */
export function complaintOf(
  error: unknown,
  where: string,
  log: (line: string) => void,
): { readonly status: number; readonly complaint: Complaint } {
  if (isTrouble(error)) {
    const status = statusOf[error.trouble];
    // A path of this computer is nobody's business on the network; the log has it.
    if (status >= 500) log(`${where}: ${error.message}`);
    return { status, complaint: { what: error.what, where, mend: error.mend } };
  }
  const { statusCode, code } = error as Partial<FastifyError>;
  const known = code === undefined ? undefined : framework[code];
  if (known !== undefined && statusCode !== undefined)
    return { status: statusCode, complaint: { ...known, where } };
  if (statusCode !== undefined && statusCode >= 400 && statusCode < 500)
    return {
      status: statusCode,
      complaint: { what: 'The message can not be read', where, mend: 'Send a JSON object.' },
    };
  // Nobody is there to hear it, and a device that is walked out of the tent is no failure of this computer.
  if (code !== undefined && cut.includes(code)) {
    const mend = 'Offer the same entries again; they can not be doubled.';
    return { status: 503, complaint: { what: 'The connection was cut', where, mend } };
  }
  if (code === 'ENOSPC' || code === 'EDQUOT') {
    const mend = 'Free some space on the camp computer, then send it again.';
    return { status: 507, complaint: { what: "The camp computer's disk is full", where, mend } };
  }
  log(`${where}: ${error instanceof Error ? error.stack : String(error)}`);
  return {
    status: 503,
    complaint: {
      what: 'The camp computer failed: whether the entries were kept is unknown',
      where,
      mend: 'Offer the same entries again; they can not be doubled.',
    },
  };
}
