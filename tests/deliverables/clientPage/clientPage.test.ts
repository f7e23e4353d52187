import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { CLIENT_POLICY, clientPage } from '../../../src/deliverables/clientPage/clientPage.ts';
import { writePng } from '../../../src/deliverables/image/png.ts';
import { decodeShareLink, encodeShareLink } from '../../../src/document/shareLink.ts';
import { HOSTILE_TEXTS, hostileSetup } from '../helpers/hostile.ts';
import { readMarkup } from '../helpers/readMarkup.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const png = writePng({ widthPx: 4, heightPx: 2, rgb: Uint8Array.from({ length: 24 }, (_, i) => i * 10) });
const picture = { png, widthPx: 4, heightPx: 2 };

const pageOf = (setup: ReturnType<typeof studioSetup>): string =>
  clientPage({
    setup,
    date: '2026-04-18',
    frames: setup.frames.map(({ name }) => ({
      ...picture,
      name,
      notes: [...HOSTILE_TEXTS],
      alternatives: HOSTILE_TEXTS.map((other) => ({ ...picture, name: other })),
    })),
  });

/** The only elements that the page is made of. */
const ALLOWED = new Set(
  'html head meta title style body header h1 h2 h3 p dl div dt dd main section figure figcaption img span footer'.split(
    ' ',
  ),
);
const ALLOWED_ATTRIBUTES = new Set([
  'lang',
  'charset',
  'http-equiv',
  'content',
  'name',
  'class',
  'src',
  'width',
  'height',
  'alt',
]);

describe('clientPage', () => {
  it('is one file: no script, no handler, no link, nothing to fetch, whatever the texts hold', () => {
    const { tags, text } = readMarkup(pageOf(hostileSetup()));
    for (const { name, attributes } of tags) {
      expect(ALLOWED.has(name), name).toBe(true);
      for (const attribute of attributes.keys()) expect(ALLOWED_ATTRIBUTES.has(attribute), attribute).toBe(true);
      if (attributes.has('src')) expect(attributes.get('src')).toMatch(/^data:image\/png;base64,[A-Za-z0-9+/]+=*$/);
    }
    expect(tags.filter(({ name }) => name === 'style')).toHaveLength(1);
    for (const hostile of HOSTILE_TEXTS) expect(text).toContain(hostile);
  });

  it('forbids everything by its own policy but pictures, a face and a style from the page itself', () => {
    const { tags } = readMarkup(pageOf(studioSetup()));
    const policy = tags.find(({ attributes }) => attributes.get('http-equiv') === 'Content-Security-Policy');
    expect(policy?.attributes.get('content')).toBe(CLIENT_POLICY);
    const rules = new Map(
      CLIENT_POLICY.split('; ').map((rule) => [rule.split(' ')[0], rule.split(' ').slice(1).join(' ')]),
    );
    expect(rules.get('default-src')).toBe("'none'");
    expect(rules.has('script-src')).toBe(false);
    expect([rules.get('img-src'), rules.get('font-src')]).toEqual(['data:', 'data:']);
    // The policy stands before anything that it is to hold.
    if (!policy) throw new Error('no policy');
    const at = tags.indexOf(policy);
    expect(tags.slice(0, at).map(({ name }) => name)).toEqual(['html', 'head', 'meta']);
  });

  it('shows every frame with its picture to the byte, its notes and its alternatives, and the brief without its notes', () => {
    const setup = studioSetup();
    const { tags, text } = readMarkup(pageOf(setup));
    const images = tags.filter(({ name }) => name === 'img');
    expect(images).toHaveLength(2 + 2 * HOSTILE_TEXTS.length);
    const [, base64 = ''] = images[0].attributes.get('src')?.split(',') ?? [];
    const back = decode(Buffer.from(base64, 'base64'));
    expect([back.width, back.height, back.data[9]]).toEqual([4, 2, 90]);
    for (const words of [
      setup.title,
      setup.brief.client,
      setup.brief.mood,
      setup.brief.deliverables,
      'Wide',
      '2026-04-18',
    ]) {
      expect(text).toContain(words);
    }
    expect(text).not.toContain(setup.brief.notes);
  });

  it('stays as tame when the setup came by a share link', () => {
    const link = encodeShareLink(hostileSetup());
    if (!link.ok) throw new Error(link.error.message);
    const opened = decodeShareLink(link.value);
    if (!opened.ok) throw new Error(opened.error.message);
    const { tags } = readMarkup(pageOf(opened.value.setup));
    expect(tags.some(({ name }) => name === 'script' || name === 'iframe' || name === 'svg')).toBe(false);
  });
});
