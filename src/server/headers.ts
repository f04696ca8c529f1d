/** What every answer tells the browser about itself: take nothing from elsewhere, guess no types, tell nobody where you were. */
export const answerHeaders: Readonly<Record<string, string>> = {
  "content-security-policy": [
    "default-src 'self'",
    "img-src 'self' data: blob:",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join("; "),
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "permissions-policy": "camera=(), geolocation=(), microphone=()",
};
