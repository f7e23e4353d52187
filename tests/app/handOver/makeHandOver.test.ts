import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { makeHandOver } from '../../../src/app/handOver/makeHandOver.ts';
import { readCsv } from '../../deliverables/helpers/readCsv.ts';
import { handOverRequest } from './handOverRequest.ts';

const text = (content: string | Uint8Array): string =>
  typeof content === 'string' ? content : new TextDecoder('latin1').decode(content);

describe('what is handed over', () => {
  it('names each file after the setup, and after the frame where it is of one', async () => {
    const names = await Promise.all(
      (['plan', 'kitList', 'setup', 'gltf'] as const).map(async (kind) => {
        return (await makeHandOver(handOverRequest(kind))).fileName;
      }),
    );
    expect(names).toEqual([
      'tonic-on-gloss-black-wide-plan.svg',
      'tonic-on-gloss-black-kit-list.csv',
      'tonic-on-gloss-black.json',
      'tonic-on-gloss-black-wide.glb',
    ]);
  });

  it('gives each in its own format', async () => {
    // PDF: ISO 32000-1 7.5.2 "%PDF-"; glTF 2.0 4.4.1: magic 0x46546C67, "glTF"; SVG 1.1: root element svg.
    expect(text((await makeHandOver(handOverRequest('plan'))).content)).toMatch(/<svg[\s>]/);
    expect(text((await makeHandOver(handOverRequest('gltf'))).content).slice(0, 4)).toBe('glTF');
    const setup = JSON.parse(text((await makeHandOver(handOverRequest('setup'))).content));
    expect(setup.format).toBe('keyglass-setup');
    // RFC 4180: records end in CRLF, all with as many fields as the head.
    const kit = text((await makeHandOver(handOverRequest('kitList'))).content);
    expect(kit.endsWith('\r\n')).toBe(true);
    expect(kit.split('\r\n').length).toBeGreaterThan(3);
  });

  it('puts the picture on screen into the page for the client, and nothing that runs', async () => {
    const { content, mimeType } = await makeHandOver(handOverRequest('client'));
    expect(mimeType).toBe('text/html');
    expect(text(content)).toContain('width="8" height="6"');
    expect(text(content)).toContain('data:image/png;base64,');
    expect(text(content)).not.toMatch(/<script/i);
  });

  it('refuses a page without a picture', async () => {
    const { picture: _picture, ...bare } = handOverRequest('client');
    await expect(makeHandOver(bare)).rejects.toThrow('traced picture');
  });

  it('reads the meter for the sheets of the frame', async () => {
    const { content } = await makeHandOver(handOverRequest('meterSheet'));
    expect(text(content).split('\r\n').length).toBeGreaterThan(3);
  });

  it('gives every table as CSV, and all of them in one archive, each with as many fields as its head', async () => {
    const single = await makeHandOver(handOverRequest('circuits'));
    expect(single.fileName).toBe('tonic-on-gloss-black-circuits.csv');
    const { content, fileName } = await makeHandOver(handOverRequest('tables'));
    expect(fileName).toBe('tonic-on-gloss-black-tables.zip');
    if (typeof content === 'string') throw new Error('an archive is bytes');
    const files = unzipSync(content);
    expect(Object.keys(files).sort()).toEqual(
      [
        ...['1-wide', '2-rotating-close-up'].flatMap((stem) =>
          ['fixture-schedule', 'grip-schedule', 'meter-sheet', 'meter-sheet-each-light'].map(
            (id) => `${stem}-${id}.csv`,
          ),
        ),
        ...[
          'build-order',
          'cautions',
          'circuits',
          'findings',
          'kit-list',
          'power',
          'shot-list',
          'stands-and-weights',
        ].map((id) => `${id}.csv`),
        ...(Object.hasOwn(files, 'hero-clock.csv') ? ['hero-clock.csv'] : []),
      ].sort(),
    );
    for (const [name, bytes] of Object.entries(files)) {
      const [heads, ...rows] = readCsv(strFromU8(bytes));
      for (const row of rows) expect(row, name).toHaveLength(heads.length);
    }
    expect(strFromU8(files['circuits.csv'])).toBe(text(single.content));
  }, 120_000);
});
