/** Headers that go with every page, from the loopback host and from Electron's scheme alike. */

/** Nothing from elsewhere, nothing inline, no frames, no forms. */
export const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-src 'none'",
  "object-src 'none'",
  "frame-ancestors 'none'",
].join('; ');

export const PAGE_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
};
