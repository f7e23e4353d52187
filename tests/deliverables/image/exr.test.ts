import fc from 'fast-check';
import { FloatType } from 'three';
import { EXRLoader } from 'three/examples/jsm/loaders/EXRLoader.js';
import { describe, expect, it } from 'vitest';
import {
  type ExrImage,
  exrChannelsFromRgb,
  REC709_CHROMATICITIES,
  readExr,
  writeExr,
} from '../../../src/deliverables/image/index.ts';

/** Hex without spaces, for comparing byte runs. */
const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
const ascii = (text: string): string => hex(new TextEncoder().encode(text));
/** Drops spaces and remarks. */
const packed = (text: string): string => text.replace(/--.*$/gm, '').replace(/\s/g, '');

const twoByTwo: ExrImage = {
  widthPx: 2,
  heightPx: 2,
  channels: [
    { name: 'Z', samples: Float32Array.of(5, 6, 7, 8) },
    { name: 'G', samples: Float32Array.of(1, 2, -0.5, 4) },
  ],
};

/** Smooth enough to compress, 37 lines so that the last block of 16 is short. */
function gradientImage(widthPx: number, heightPx: number): ExrImage {
  const rgb = new Float32Array(widthPx * heightPx * 3);
  for (let i = 0; i < rgb.length; i += 1) rgb[i] = Math.floor(i / 3) * 0.25 - (i % 3) * 1000;
  return { widthPx, heightPx, channels: exrChannelsFromRgb(rgb), chromaticities: REC709_CHROMATICITIES };
}

describe('writeExr', () => {
  it('lays out the uncompressed file of the OpenEXR layout document byte by byte', () => {
    // Source: "OpenEXR File Layout", Academy Software Foundation: components one to five and predefined attribute types.
    const head = packed(`
      762f3101 02000000 -- magic number 20000630; version 2, no flags
      ${ascii('channels')} 00 ${ascii('chlist')} 00 25000000 -- 37 bytes: two channels of 18 and the end
      47 00 02000000 00 000000 01000000 01000000 -- G, FLOAT, pLinear, reserved, sampling
      5a 00 02000000 00 000000 01000000 01000000 -- Z after G: alphabetical
      00
      ${ascii('compression')} 00 ${ascii('compression')} 00 01000000 00 -- NO_COMPRESSION
      ${ascii('dataWindow')} 00 ${ascii('box2i')} 00 10000000 00000000 00000000 01000000 01000000
      ${ascii('displayWindow')} 00 ${ascii('box2i')} 00 10000000 00000000 00000000 01000000 01000000
      ${ascii('lineOrder')} 00 ${ascii('lineOrder')} 00 01000000 00 -- INCREASING_Y
      ${ascii('pixelAspectRatio')} 00 ${ascii('float')} 00 04000000 0000803f
      ${ascii('screenWindowCenter')} 00 ${ascii('v2f')} 00 08000000 00000000 00000000
      ${ascii('screenWindowWidth')} 00 ${ascii('float')} 00 04000000 0000803f
      00 -- end of header`);
    // Two unsigned longs, then per line of 24 bytes: y, size, all of G, all of Z.
    const first = head.length / 2 + 16;
    const u64 = (value: number): string => hex(new Uint8Array(BigUint64Array.of(BigInt(value)).buffer));
    const body = packed(`
      ${u64(first)} ${u64(first + 24)}
      00000000 10000000 0000803f 00000040 0000a040 0000c040 -- y 0: G 1, 2; Z 5, 6
      01000000 10000000 000000bf 00008040 0000e040 00000041 -- y 1: G -0.5, 4; Z 7, 8`);
    expect(hex(writeExr(twoByTwo, 'none'))).toBe(head + body);
  });

  it('sets the long-name flag (bit 10) only when a name is over 31 bytes', () => {
    const withName = (name: string) => writeExr({ ...twoByTwo, channels: [{ ...twoByTwo.channels[0], name }] });
    expect(withName('x'.repeat(31))[5]).toBe(0);
    expect(withName('x'.repeat(32))[5]).toBe(0x04);
  });

  it.each(['none', 'zip'] as const)('is read by the three.js loader with %s compression', (compression) => {
    const image = gradientImage(5, 37);
    const bytes = writeExr(image, compression);
    const loader = new EXRLoader();
    loader.setDataType(FloatType);
    const read = loader.parse(bytes.slice().buffer);
    expect([read.width, read.height]).toEqual([5, 37]);
    // The loader stores rows bottom to top, four channels a pixel.
    for (const [c, { samples }] of image.channels.entries()) {
      for (const [x, y] of [
        [0, 0],
        [4, 0],
        [2, 15],
        [1, 16],
        [4, 36],
      ]) {
        expect(read.data?.[((36 - y) * 5 + x) * 4 + c]).toBe(samples[y * 5 + x]);
      }
    }
  });

  it('compresses a smooth picture and stores noise as it is', () => {
    expect(writeExr(gradientImage(64, 64), 'zip').length).toBeLessThan(
      writeExr(gradientImage(64, 64), 'none').length / 2,
    );
    let state = 1;
    const samples = Float32Array.from({ length: 64 }, () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return new Float32Array(Uint32Array.of((state & 0x7f7fffff) >>> 0).buffer)[0];
    });
    const noise: ExrImage = { widthPx: 8, heightPx: 8, channels: [{ name: 'Y', samples }] };
    const read = readExr(writeExr(noise, 'zip'));
    expect(read).toMatchObject({ ok: true, value: { channels: [{ name: 'Y', samples }] } });
  });

  it('refuses a channel of the wrong length and a name used twice', () => {
    const samples = new Float32Array(3);
    expect(() => writeExr({ ...twoByTwo, channels: [{ name: 'R', samples }] })).toThrow('3 samples for 4 pixels');
    expect(() => writeExr({ ...twoByTwo, channels: [twoByTwo.channels[0], twoByTwo.channels[0]] })).toThrow('twice');
  });
});

describe('readExr', () => {
  it('gives back layers, metadata and every bit of every sample', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 35 }),
        fc.constantFrom('none', 'zip') as fc.Arbitrary<'none' | 'zip'>,
        fc.infiniteStream(fc.float()),
        (widthPx, heightPx, compression, values) => {
          const take = () => Float32Array.from({ length: widthPx * heightPx }, () => values.next().value);
          const image: ExrImage = {
            widthPx,
            heightPx,
            channels: [
              { name: 'B', samples: take() },
              { name: 'back-light.R', samples: take() },
            ],
            chromaticities: REC709_CHROMATICITIES.map(Math.fround) as unknown as ExrImage['chromaticities'],
            attributes: { whiteLuminance: 1, setup: 'Tonic on gloss black' },
          };
          expect(readExr(writeExr(image, compression))).toEqual({ ok: true, value: image });
        },
      ),
      { numRuns: 50, seed: 7 },
    );
  });

  it('refuses another format, another version, half floats and every cut-off file with a message', () => {
    const bytes = writeExr(gradientImage(5, 20), 'zip');
    const changed = (at: number, value: number) => Uint8Array.from(bytes, (b, i) => (i === at ? value : b));
    expect(readExr(new TextEncoder().encode('PF\n1 1\n-1.0\n'))).toMatchObject({ error: { code: 'not-this-format' } });
    expect(readExr(changed(5, 0x02))).toMatchObject({ error: { code: 'unsupported' } });
    // Pixel type of the first channel: magic, version, "channels", "chlist", size, "B".
    expect(readExr(changed(8 + 9 + 7 + 4 + 2, 1))).toMatchObject({ error: { code: 'unsupported' } });
    for (let length = 0; length < bytes.length; length += 7) {
      expect(readExr(bytes.subarray(0, length)), `${length} bytes`).toMatchObject({ ok: false });
    }
  });
});
