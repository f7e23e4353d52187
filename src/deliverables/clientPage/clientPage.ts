import type { Setup } from '../../document/setup.ts';
import { toBase64 } from '../paper/base64.ts';
import { escapeMarkup } from '../paper/escapeMarkup.ts';
import { CLIENT_STYLE } from './clientStyle.ts';

/** A picture for the client. */
export interface ClientPicture {
  readonly png: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface ClientFrame extends ClientPicture {
  readonly name: string;
  /** A short line or two, in the client's words, not the crew's. */
  readonly notes: readonly string[];
  /** Other ways to light or dress the same frame. */
  readonly alternatives: readonly (ClientPicture & { readonly name: string })[];
}

export interface ClientPageInput {
  readonly setup: Pick<Setup, 'title' | 'brief'>;
  readonly date: string;
  readonly frames: readonly ClientFrame[];
  /** Also the brief's notes, which are the crew's otherwise. */
  readonly showNotes?: boolean;
  /** A WOFF2 file of the face that the page is set in; the system's own face when left out. */
  readonly fontWoff2?: Uint8Array;
}

/**
 * The page's own rules for the browser: nothing is fetched and nothing runs, whatever a text on it may hold. Pictures are
 * in the page; the one style sheet is too.
 */
export const CLIENT_POLICY =
  "default-src 'none'; img-src data:; font-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/**
 * One file that a client opens in any browser: what the brief says of mood and deliverables, every frame large, its
 * alternatives small. The brief's notes are the crew's and stay off it unless they are asked for. No scripts.
 */
export function clientPage({ setup, date, frames, showNotes = false, fontWoff2 }: ClientPageInput): string {
  const { title, brief } = setup;
  const words = escapeMarkup;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${words(CLIENT_POLICY)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${words(title)}</title>
<style>${fontWoff2 ? fontFace(fontWoff2) : ''}${CLIENT_STYLE}</style>
</head>
<body>
<header>
${brief.client === '' ? '' : `<p class="client">${words(brief.client)}</p>`}
<h1>${words(title)}</h1>
${paragraphs(brief.mood, 'mood')}
${facts([
  ['What we make', brief.deliverables],
  ['Notes', showNotes ? brief.notes : ''],
])}
</header>
<main>
${frames.map(frameSection).join('\n')}
</main>
<footer><p>${words(date)}. The pictures are traced from the planned set: light, glass and drink as they will stand there, grain smoothed. The drink in them is a stand-in.</p></footer>
</body>
</html>
`;
}

const fontFace = (woff2: Uint8Array): string =>
  `@font-face { font-family: "Spline Sans Variable"; font-weight: 300 700; src: url(data:font/woff2;base64,${toBase64(woff2)}) format("woff2"); }`;

function frameSection(frame: ClientFrame, index: number): string {
  return `<section>
<figure>
${image(frame, frame.name)}
<figcaption><h2><span>${index + 1}</span> ${escapeMarkup(frame.name)}</h2>${frame.notes
    .map((note) => paragraphs(note, 'note'))
    .join('')}</figcaption>
</figure>
${
  frame.alternatives.length === 0
    ? ''
    : `<div class="alternatives"><h3>Another way</h3><div>${frame.alternatives
        .map(
          (other) => `<figure>
${image(other, `${frame.name}: ${other.name}`)}
<figcaption><p>${escapeMarkup(other.name)}</p></figcaption>
</figure>`,
        )
        .join('\n')}</div></div>`
}
</section>`;
}

const image = ({ png, widthPx, heightPx }: ClientPicture, description: string): string =>
  `<img src="data:image/png;base64,${toBase64(png)}" width="${Math.round(widthPx)}" height="${Math.round(heightPx)}" alt="${escapeMarkup(description)}">`;

const paragraphs = (text: string, kind: 'mood' | 'note' | 'fact'): string =>
  text
    .split(/\n+/)
    .filter((line) => line.trim() !== '')
    .map((line) => `<p class="${kind}">${escapeMarkup(line.trim())}</p>`)
    .join('');

function facts(entries: readonly (readonly [string, string])[]): string {
  const told = entries.filter(([, text]) => text.trim() !== '');
  if (told.length === 0) return '';
  return `<dl>${told
    .map(([term, text]) => `<div><dt>${escapeMarkup(term)}</dt><dd>${paragraphs(text, 'fact')}</dd></div>`)
    .join('')}</dl>`;
}
