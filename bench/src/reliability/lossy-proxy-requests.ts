/** Sees whole HTTP/1.1 requests go by on one connection, so that the proxy can say one of them twice. */
export interface RequestReader {
  read(piece: Buffer): void;
}

const headEnd = Buffer.from('\r\n\r\n');
/** More than an exchange may hold; a request that is larger is not said twice. */
const most = 16 * 1024 * 1024;

/**
 * @param see told of every whole request that writes (POST, PUT), byte by byte as it came. After a request whose
 * length is not said beforehand nothing on that connection is told any more.
 */
export function createRequestReader(see: (request: Buffer) => void): RequestReader {
  let held = Buffer.alloc(0);
  let isLost = false;
  const takeOne = (): boolean => {
    const head = held.indexOf(headEnd);
    if (head < 0) return false;
    const words = held.toString('latin1', 0, head);
    if (/^transfer-encoding:/im.test(words)) {
      isLost = true;
      return false;
    }
    const length = head + headEnd.length + Number(/^content-length:\s*(\d+)/im.exec(words)?.[1] ?? 0);
    if (held.length < length) return false;
    const request = held.subarray(0, length);
    held = held.subarray(length);
    if (/^(POST|PUT) /.test(words)) see(Buffer.from(request));
    return true;
  };
  return {
    read(piece) {
      if (isLost) return;
      held = Buffer.concat([held, piece]);
      while (!isLost && takeOne());
      if (held.length > most) isLost = true;
      if (isLost) held = Buffer.alloc(0);
    },
  };
}
