/**
 * What the built page lets the browser load: its own files and what it makes itself, nothing from elsewhere, whatever an
 * opened setup may hold. Content Security Policy Level 3 (W3C). Styles are written into elements by the inspector's
 * library, hence 'unsafe-inline' for styles alone.
 */
export const APP_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self' blob:",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "connect-src 'self' data: blob:",
  "media-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/**
 * Writes the policy into the built page, before anything that it is to hold. The page of `npm run dev` has none: its
 * server writes scripts into it.
 *
 * @returns {import('vite').Plugin}
 */
export function policyPlugin() {
  return {
    name: 'keyglass-policy',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: APP_POLICY },
        injectTo: 'head-prepend',
      },
    ],
  };
}
