import { z } from 'zod';
import { fromBase64Url, toBase64Url } from '../core/base64Url.ts';
import { decodeSrgb } from '../core/color/index.ts';
import type { ReflectanceRgb } from './reflectance.ts';

/** Longest side of a stored picture, pixels. */
export const MAX_PICTURE_PX = 640;
/** Reflectance of the white of a print: bright paper, common practice, no source. */
export const PAPER_WHITE = 0.88;

/** A printed picture on a surface, in the frame of the whole piece. */
export const pictureSchema = z
  .object({
    widthPx: z.int().min(1).max(MAX_PICTURE_PX),
    heightPx: z.int().min(1).max(MAX_PICTURE_PX),
    rgb: z
      .string()
      .min(4)
      .max(Math.ceil((MAX_PICTURE_PX * MAX_PICTURE_PX * 3 * 4) / 3))
      .describe('sRGB codes of each pixel, three bytes, rows from the top, as base64url (RFC 4648 section 5).'),
    lies: z
      .enum(['upright', 'level', 'round'])
      .default('upright')
      .describe('Across x and up y; across x and toward the camera; or round the y axis as a label.'),
    centreM: z
      .tuple([z.number().min(-50).max(50), z.number().min(-50).max(50)])
      .default([0, 0])
      .describe("Its middle in the piece's own frame; of a round one only the height counts."),
    azimuthDeg: z.number().min(-360).max(360).default(90).describe('Middle of a round one; 90 is toward the camera.'),
    widthM: z.number().min(0.001).max(50).describe('For a round one along the arc of radiusM.'),
    heightM: z.number().min(0.001).max(50),
    radiusM: z.number().min(0.001).max(5).default(0.035).describe('Of the surface that a round one lies on.'),
  })
  .describe(
    'A print: it takes the place of the reflectance where it lies. White of the file is a reflectance of 0.88.',
  );
export type Picture = z.infer<typeof pictureSchema>;

export const PictureLie = { upright: 0, level: 1, round: 2 } as const;
/** Words before the colours: width, height, lie, centre u, centre v, pixels per unit of u, pixels per metre of v. */
export const PICTURE_HEAD = 7;

/** IEC 61966-2-1: linear light of each 8-bit sRGB code, times the white of the print. */
const REFLECTANCE_OF_CODE = Float64Array.from({ length: 256 }, (_, code) => PAPER_WHITE * decodeSrgb(code / 255));

/** Colours of the print as linear reflectances, rows from the top; null when `rgb` does not hold what the sizes say. */
export function pictureReflectances(picture: Picture): Float32Array | null {
  const known = reflectances.get(picture);
  if (known !== undefined) return known;
  const bytes = fromBase64Url(picture.rgb);
  const colours =
    bytes?.length === picture.widthPx * picture.heightPx * 3
      ? Float32Array.from(bytes, (code) => REFLECTANCE_OF_CODE[code])
      : null;
  reflectances.set(picture, colours);
  return colours;
}
/** A print is read once, not at every step of a drag: a piece that did not change keeps the same record. */
const reflectances = new WeakMap<Picture, Float32Array | null>();

export const storePictureRgb = (codes: Uint8Array): string => toBase64Url(codes);

/** The head of a picture for a kernel; `pictureColourAt` reads it. */
export function pictureHead({
  widthPx,
  heightPx,
  lies,
  centreM,
  azimuthDeg,
  widthM,
  heightM,
  radiusM,
}: Picture): number[] {
  const isRound = lies === 'round';
  const spanU = isRound ? widthM / radiusM : widthM;
  const centreU = isRound ? (azimuthDeg * Math.PI) / 180 : centreM[0];
  return [widthPx, heightPx, PictureLie[lies], centreU, centreM[1], widthPx / spanU, heightPx / heightM];
}

/** Mean reflectance of the print itself. */
export function meanPictureRgb(picture: Picture): ReflectanceRgb {
  const known = means.get(picture);
  if (known) return known;
  const colours = pictureReflectances(picture);
  const sum = [0, 0, 0];
  colours?.forEach((value, i) => {
    sum[i % 3] += value;
  });
  const count = colours ? colours.length / 3 : 1;
  const mean: ReflectanceRgb = [sum[0] / count, sum[1] / count, sum[2] / count];
  means.set(picture, mean);
  return mean;
}
const means = new WeakMap<Picture, ReflectanceRgb>();

/**
 * Colour of a print at a point of the piece's frame, linear between pixel centres, into `out`. False beside the print.
 * @param words holds the head at `offset` and width x height x 3 colours after it.
 */
export function pictureColourAt(
  words: Float64Array,
  offset: number,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): boolean {
  const [widthPx, heightPx, lie] = [words[offset], words[offset + 1], words[offset + 2]];
  let du = (lie === PictureLie.round ? Math.atan2(z, x) : x) - words[offset + 3];
  if (lie === PictureLie.round) {
    // Azimuth runs from +x to +z, right to left as seen from outside: the print reads the other way round.
    du = -(du - 2 * Math.PI * Math.round(du / (2 * Math.PI)));
  }
  const dv = lie === PictureLie.level ? words[offset + 4] - z : y - words[offset + 4];
  const u = du * words[offset + 5] + widthPx / 2;
  const v = heightPx / 2 - dv * words[offset + 6];
  if (u < 0 || v < 0 || u > widthPx || v > heightPx) return false;
  const fu = Math.min(widthPx - 1, Math.max(0, u - 0.5));
  const fv = Math.min(heightPx - 1, Math.max(0, v - 0.5));
  const [i, j] = [Math.min(widthPx - 2, Math.floor(fu)), Math.min(heightPx - 2, Math.floor(fv))].map((n) =>
    Math.max(0, n),
  );
  const [iNext, jNext] = [Math.min(widthPx - 1, i + 1), Math.min(heightPx - 1, j + 1)];
  const [a, b] = [fu - i, fv - j];
  const at = offset + PICTURE_HEAD;
  for (let c = 0; c < 3; c++) {
    const top = words[at + 3 * (j * widthPx + i) + c] * (1 - a) + words[at + 3 * (j * widthPx + iNext) + c] * a;
    const under =
      words[at + 3 * (jNext * widthPx + i) + c] * (1 - a) + words[at + 3 * (jNext * widthPx + iNext) + c] * a;
    out[c] = top * (1 - b) + under * b;
  }
  return true;
}
