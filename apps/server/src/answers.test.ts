import { describe, expect, it } from 'vitest';
import { complaintOf } from './answers.ts';

const trouble = (kind: string) =>
  Object.assign(new Error('x'), {
    trouble: kind,
    what: 'It went wrong',
    where: '/camp/data',
    mend: 'Try again.',
  });

describe('complaintOf', () => {
  it.each([
    ['disk full', 507],
    ['unknown fate', 503],
    ['damaged', 503],
    ['newer version', 503],
    ['closed', 503],
    ['refused', 400],
    ['missing', 404],
  ])('J4: "%s" is answered with %i, in words, without a path of the computer', (kind, status) => {
    const got = complaintOf(trouble(kind), 'POST /x', () => undefined);
    expect(got).toEqual({
      status,
      complaint: { what: 'It went wrong', where: 'POST /x', mend: 'Try again.' },
    });
  });

  it('an error nobody foresaw goes out as unknown fate and only into the log with its stack', () => {
    const lines: string[] = [];
    const { status, complaint } = complaintOf(new Error('secret path'), 'POST /x', (line) =>
      lines.push(line),
    );
    expect(status).toBe(503);
    expect(JSON.stringify(complaint)).not.toContain('secret');
    expect(complaint.mend).toContain('Offer the same entries again');
    expect(lines[0]).toContain('answers.test.ts');
  });

  it('a connection that was cut is no failure of the camp computer, and its log does not say so', () => {
    const lines: string[] = [];
    const error = Object.assign(new Error('Premature close'), { code: 'ERR_STREAM_PREMATURE_CLOSE' });
    expect(complaintOf(error, 'POST /x', (line) => lines.push(line)).status).toBe(503);
    expect(lines).toEqual([]);
  });

  it.each(['ENOSPC', 'EDQUOT'])('%s of the file system is a full disk', (code) => {
    const error = Object.assign(new Error('x'), { code });
    expect(complaintOf(error, 'PUT /x', () => undefined).status).toBe(507);
  });
});
