import { argon2Of } from './argon2.ts';

/** The thread that works out what is kept of a PIN, so that the screen goes on meanwhile. */
self.addEventListener(
  'message',
  ({ data }: MessageEvent<{ readonly pin: string; readonly salt: string }>) => {
    self.postMessage(argon2Of(data.pin, data.salt));
  },
);
