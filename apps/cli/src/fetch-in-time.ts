/** A whole answer, read to its end. */
export interface WholeAnswer {
  readonly ok: boolean;
  readonly status: number;
  readonly bytes: Uint8Array;
}

/**
 * One request and all of its answer. Node 20's fetch can stay unsettled for ever when its server is killed, also with
 * a signal that aborts it, so a plain timer stands beside it.
 *
 * @param patience ms for the whole of it
 * @throws or rejects where no whole answer came in that time
 */
export const fetchInTime = async (
  address: string,
  init: RequestInit,
  patience: number,
): Promise<WholeAnswer> => {
  const stop = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => {
      reject(new Error(`no whole answer within ${patience} ms`));
      stop.abort();
    }, patience);
  });
  const whole = async (): Promise<WholeAnswer> => {
    const answer = await fetch(address, { ...init, signal: stop.signal });
    return { ok: answer.ok, status: answer.status, bytes: new Uint8Array(await answer.arrayBuffer()) };
  };
  try {
    return await Promise.race([whole(), late]);
  } finally {
    clearTimeout(timer);
  }
};

/** What the answer says; null where it is no JSON. */
export const jsonOf = ({ bytes }: WholeAnswer): unknown => {
  try {
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return null;
  }
};
