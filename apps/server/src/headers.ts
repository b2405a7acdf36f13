/**
 * Sent with every answer, also refusals. The page may load what this server serves and nothing else; it may
 * compile WebAssembly and run workers of its own (depths are solved in one).
 */
export const securityHeaders: Readonly<Record<string, string>> = {
  'content-security-policy': [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    "style-src 'self'",
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  // Both together let the page and its workers share memory (storage/browser/leaving.ts).
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(self), geolocation=(), microphone=(), payment=(), usb=()',
};

/** For devices that took the camp's certificate: half a year of https alone, and no way past a warning. */
export const strictTransport: Readonly<Record<string, string>> = {
  'strict-transport-security': 'max-age=15552000',
};
