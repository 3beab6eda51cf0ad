import { isIP } from 'node:net';
import type { Key } from '../../core/said.js';
import type { Say } from '../../words/say.js';
import { qrPicture } from './qr.js';

/** What the page says of this server. */
export interface TrustPage {
  /** Where the app is, by https; the first is the one to use. */
  readonly urls: readonly [string, ...string[]];
  /** Where this page is, by plain http. */
  readonly here: string;
  /** Of the authority: SHA-256, pairs of hex digits with colons. */
  readonly fingerprint: string;
}

/** Where the authority's certificate lies on the page's server. */
export const certificatePath = '/roundhand-authority.crt';

/** The common systems, each with how to trust the authority and how to take it out again: one step a line. */
const systems = [
  { name: 'lan.android', trust: 'lan.android.trust', remove: 'lan.android.remove' },
  { name: 'lan.iphone', trust: 'lan.iphone.trust', remove: 'lan.iphone.remove' },
  { name: 'lan.windows', trust: 'lan.windows.trust', remove: 'lan.windows.remove' },
  { name: 'lan.mac', trust: 'lan.mac.trust', remove: 'lan.mac.remove' },
  { name: 'lan.linux', trust: 'lan.linux.trust', remove: 'lan.linux.remove' },
  { name: 'lan.firefox', trust: 'lan.firefox.trust', remove: 'lan.firefox.remove' },
] as const satisfies readonly { readonly [part in 'name' | 'trust' | 'remove']: Key }[];

/** Only the one style inside the page, and the code for the next phone. */
export const trustPolicy =
  "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/** The page that leads a phone through trusting this server, with how to take that back. */
export function trustPage({ urls, here, fingerprint }: TrustPage, say: Say): string {
  const [home] = urls;
  const steps = (key: (typeof systems)[number]['trust' | 'remove']): string =>
    `<ol>${say(key)
      .split('\n')
      .map((step) => `<li>${text(step)}</li>`)
      .join('')}</ol>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${text(say('lan.page.title'))}</title>
<style>${style}</style>
</head>
<body>
<main>
<h1>${text(say('lan.page.title'))}</h1>
<p>${text(say('lan.page.why'))}</p>
<p><a class="button" href="${certificatePath}" download>${text(say('lan.page.fetch'))}</a></p>
<p>${text(say('lan.page.compare'))}</p>
<p class="print">${text(fingerprint)}</p>
<p>${text(say('lan.page.may'))}</p>
<p class="untried">△ ${text(say('lan.page.untried'))}</p>
${systems
  .map(
    ({ name, trust, remove }) =>
      `<details><summary>${text(say(name))}</summary>
<h2>${text(say('lan.page.trust'))}</h2>${steps(trust)}
<h2>${text(say('lan.page.remove'))}</h2>${steps(remove)}
</details>`,
  )
  .join('\n')}
<h2>${text(say('lan.page.then'))}</h2>
<ul>${urls.map((url) => `<li><a href="${text(url)}">${text(url)}</a></li>`).join('')}</ul>
<p>${text(say(isIP(new URL(home).hostname) === 0 ? 'lan.page.by-address' : 'lan.by-address'))}</p>
<h2>${text(say('lan.page.next'))}</h2>
<p>${text(here)}</p>
<div class="code">${qrPicture(here)}</div>
</main>
</body>
</html>
`;
}

const text = (raw: string): string => raw.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

const style = `
body { margin: 0; background: #faf6ee; color: #1d2733; font: 18px/1.5 "Atkinson Hyperlegible Next", system-ui, sans-serif; }
main { max-width: 40rem; margin: 0 auto; padding: 1rem; }
.button { display: inline-block; padding: 1rem 1.25rem; border-radius: 8px; background: #1d2733; color: #faf6ee; }
.print { font-family: ui-monospace, monospace; overflow-wrap: anywhere; }
.untried { border-left: 6px solid #8a5a00; padding-left: 0.75rem; }
summary { padding: 1rem 0; font-weight: 700; }
h2 { font-size: 1.1rem; }
a { overflow-wrap: anywhere; }
.code { max-width: 12rem; background: #fff; }
`;
