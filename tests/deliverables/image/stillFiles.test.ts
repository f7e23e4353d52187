import { decode as decodeJpeg } from '@cwasm/jpeg-turbo';
import ExifReader from 'exifreader';
import { PNG } from 'pngjs';
import { decode as decodeTiff } from 'tiff';
import { describe, expect, it } from 'vitest';
import { developColour, developParams } from '../../../src/camera/develop.ts';
import type { PictureFacts } from '../../../src/deliverables/image/index.ts';
import { writePng } from '../../../src/deliverables/image/index.ts';
import { type StillFormat, stillFile } from '../../../src/deliverables/still/stillFile.ts';
import { encodeJpeg } from '../../../tools/cli/encodeJpeg.ts';
import { openFrame } from '../helpers/openFrames.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

/* Read back by readers that share no code with the writers: pngjs, libjpeg-turbo (as wasm), tiff of image-js, ExifReader. */

const { scene } = openFrame(studioSetup());
const { camera } = scene;
const facts: PictureFacts = {
  setupTitle: 'Th\u00e9 glac\u00e9 \u8336',
  frameName: 'Wide',
  camera,
  samplesPerPixel: 96,
  relativeError: 0.0213,
  smoothed: true,
  programVersion: '0.1.0',
};
const WIDTH = 24;
const HEIGHT = 16;
/** A soft ramp of warm light that stays below clipping. */
const light = {
  widthPx: WIDTH,
  heightPx: HEIGHT,
  rgb: Float32Array.from({ length: WIDTH * HEIGHT * 3 }, (_, i) => {
    const [p, c] = [Math.floor(i / 3), i % 3];
    return (2 + (p % WIDTH) * 3 + Math.floor(p / WIDTH) * 2) * [1, 0.8, 0.5][c];
  }),
};
const params = developParams(camera);
/** The codes that the picture should hold, 0 to 1. */
const wanted = (x: number, y: number): readonly number[] => {
  const k = 3 * (y * WIDTH + x);
  return developColour([light.rgb[k], light.rgb[k + 1], light.rgb[k + 2]], params);
};
const file = (format: StillFormat) => stillFile(light, camera, facts, { format, encodeJpeg });
const exifOf = (bytes: Uint8Array) => ExifReader.load(bytes.slice().buffer, { expanded: true });

const CHECKED = [
  [0, 0],
  [23, 0],
  [5, 7],
  [0, 15],
  [23, 15],
] as const;

describe('still files', () => {
  it('PNG holds the developed codes to one step of 8 bits, read by pngjs', async () => {
    const png = PNG.sync.read(Buffer.from(await file('png')));
    expect([png.width, png.height]).toEqual([WIDTH, HEIGHT]);
    for (const [x, y] of CHECKED) {
      for (const c of [0, 1, 2]) {
        expect(Math.abs(png.data[4 * (y * WIDTH + x) + c] - 255 * wanted(x, y)[c])).toBeLessThanOrEqual(1.01);
      }
    }
  });

  it('TIFF holds them to one step of 16 bits, three channels, read by the tiff package', async () => {
    const [page] = decodeTiff(await file('tif'));
    expect([page.width, page.height, page.bitsPerSample, page.samplesPerPixel]).toEqual([WIDTH, HEIGHT, 16, 3]);
    // TIFF 6.0: compression 1 is none, photometric 2 is RGB.
    expect([page.compression, page.type]).toEqual([1, 2]);
    for (const [x, y] of CHECKED) {
      for (const c of [0, 1, 2]) {
        expect(Math.abs(page.data[3 * (y * WIDTH + x) + c] - 65535 * wanted(x, y)[c])).toBeLessThanOrEqual(1);
      }
    }
  });

  it('JPEG shows the ramp within 4 codes, read by libjpeg-turbo', async () => {
    const jpeg = decodeJpeg(await file('jpg'));
    expect([jpeg.width, jpeg.height]).toEqual([WIDTH, HEIGHT]);
    for (const [x, y] of CHECKED) {
      for (const c of [0, 1, 2]) {
        expect(Math.abs(jpeg.data[4 * (y * WIDTH + x) + c] - 255 * wanted(x, y)[c])).toBeLessThanOrEqual(4);
      }
    }
  });

  it.each(['png', 'jpg', 'tif'] as const)('%s says by Exif how it was exposed and traced', async (format) => {
    const { exif } = exifOf(await file(format));
    if (!exif) throw new Error('no Exif');
    // Exif 2.32: 85 mm at f/11, 1/50 s, ISO 200, focus 1.409 m, as the setup says.
    expect(exif.FocalLength?.value).toEqual([850, 10]);
    expect(exif.FNumber?.value).toEqual([1100, 100]);
    expect(exif.ExposureTime?.value).toEqual([1, 50]);
    expect(exif.ISOSpeedRatings?.value).toBe(200);
    expect(exif.SubjectDistance?.value).toEqual([1409, 1000]);
    expect(exif.ColorSpace?.value).toBe(1);
    expect(exif.PixelXDimension?.value).toBe(WIDTH);
    expect(exif.Software?.description).toBe('Keyglass 0.1.0');
    expect(exif.ImageDescription?.description).toBe('The glace ?: Wide');
    expect(exif.UserComment).toMatchObject({
      description: expect.stringContaining('96 samples a pixel, estimated error 2.1 % as traced, grain smoothed'),
    });
  });

  it('PNG says it in text chunks too, other scripts in UTF-8', async () => {
    const { pngText, png } = exifOf(await file('png'));
    expect([png?.['Image Width']?.value, png?.['Image Height']?.value]).toEqual([WIDTH, HEIGHT]);
    expect(pngText?.Title?.description).toBe('Th\u00e9 glac\u00e9 \u8336: Wide');
    expect(pngText?.Camera?.description).toBe('85 mm, f/11, 1/50 s, ISO 200, 5600 K, focus 1409 mm');
    expect(pngText?.Trace?.description).toContain('96 samples a pixel');
  });

  it('stays the same file without facts', () => {
    const plain = writePng({ widthPx: 1, heightPx: 1, rgb: Uint8Array.of(1, 2, 3) });
    expect(Buffer.from(plain).includes('eXIf')).toBe(false);
  });
});
