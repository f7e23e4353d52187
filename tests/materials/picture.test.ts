import { describe, expect, it } from 'vitest';
import { finishSchema } from '../../src/materials/finish.ts';
import { meanReflectanceRgb } from '../../src/materials/finishPattern.ts';
import {
  meanPictureRgb,
  PAPER_WHITE,
  PICTURE_HEAD,
  type Picture,
  pictureColourAt,
  pictureHead,
  pictureReflectances,
  pictureSchema,
  storePictureRgb,
} from '../../src/materials/picture.ts';
import { setOf, surfaceOf } from '../helpers/surfaces.ts';
import { traceRays } from '../helpers/traceRays.ts';

/** 2 x 2 pixels: white, black over middle grey, dark grey; 40 x 20 cm, upright about (0, 1). */
const codes = Uint8Array.from([255, 255, 255, 0, 0, 0, 188, 188, 188, 60, 60, 60]);
const print = (more: Partial<Picture> = {}): Picture =>
  pictureSchema.parse({
    widthPx: 2,
    heightPx: 2,
    rgb: storePictureRgb(codes),
    centreM: [0, 1],
    widthM: 0.4,
    heightM: 0.2,
    ...more,
  });

function colourAt(picture: Picture, x: number, y: number, z: number): number[] | null {
  const colours = pictureReflectances(picture);
  if (!colours) throw new Error('no colours');
  const words = Float64Array.from([...pictureHead(picture), ...colours]);
  const out = new Float64Array(3);
  return pictureColourAt(words, 0, x, y, z, out) ? [...out] : null;
}

/** IEC 61966-2-1, table 1 of the usual worked values: code 188 is a linear 0.503, code 60 a linear 0.0452. */
const LINEAR_188 = 0.503;
const LINEAR_60 = 0.0452;

describe('a print', () => {
  it('shows white of the file as bright paper, and the codes by the sRGB curve', () => {
    expect(colourAt(print(), -0.1, 1.05, 0)?.[1]).toBeCloseTo(PAPER_WHITE, 6);
    expect(colourAt(print(), 0.1, 1.05, 0)?.[1]).toBe(0);
    expect(colourAt(print(), -0.1, 0.95, 0)?.[1]).toBeCloseTo(PAPER_WHITE * LINEAR_188, 3);
    expect(colourAt(print(), 0.1, 0.95, 0)?.[1]).toBeCloseTo(PAPER_WHITE * LINEAR_60, 3);
  });

  it('is linear between pixel centres and ends at its edges', () => {
    expect(colourAt(print(), 0, 1.05, 0)?.[0]).toBeCloseTo(PAPER_WHITE / 2, 6);
    expect(colourAt(print(), -0.199, 1.05, 0)).not.toBeNull();
    expect(colourAt(print(), -0.201, 1.05, 0)).toBeNull();
    expect(colourAt(print(), 0, 1.101, 0)).toBeNull();
  });

  it('lies level with its top away from the camera, and reads left to right round a bottle', () => {
    const level = print({ lies: 'level', centreM: [0, 0.5] });
    expect(colourAt(level, -0.1, 0, 0.45)?.[1]).toBeCloseTo(PAPER_WHITE, 6);
    // 90 degrees of azimuth is toward the camera, where +x is to the right.
    const round = print({ lies: 'round', centreM: [0, 0.1], widthM: 0.04, heightM: 0.04, radiusM: 0.04 });
    const at = (turnDeg: number, y: number): number[] | null => {
      const azimuth = ((90 - turnDeg) * Math.PI) / 180;
      return colourAt(round, 0.04 * Math.cos(azimuth), y, 0.04 * Math.sin(azimuth));
    };
    const quarterDeg = ((0.01 / 0.04) * 180) / Math.PI;
    expect(at(-quarterDeg, 0.11)?.[1]).toBeCloseTo(PAPER_WHITE, 6);
    expect(at(quarterDeg, 0.11)?.[1]).toBeCloseTo(0, 6);
    expect(at(180, 0.11)).toBeNull();
  });

  it('reflects its own share of a uniform surround of 1, and that of the finish beside it (no light but the surround)', () => {
    const finish = finishSchema.parse({ type: 'matte', reflectanceRgb: [0.3, 0.3, 0.3], picture: print() });
    const wall = surfaceOf('wall', { type: 'quad', originM: [-1, 0, 0], edgeUM: [2, 0, 0], edgeVM: [0, 2, 0] }, finish);
    const seen = (x: number, y: number): number =>
      traceRays(setOf([wall]), [x, y, 1], [0, 0, -1], 400, { surroundRgb: [1, 1, 1], maxDepth: 8 }).rgb[1];
    expect(seen(-0.1, 1.05)).toBeCloseTo(PAPER_WHITE, 3);
    expect(seen(-0.1, 0.95)).toBeCloseTo(PAPER_WHITE * LINEAR_188, 3);
    expect(seen(0.7, 1)).toBeCloseTo(0.3, 3);
  });

  it('has the mean of its pixels where one colour has to stand for it', () => {
    const mean = (PAPER_WHITE * (1 + 0 + LINEAR_188 + LINEAR_60)) / 4;
    expect(meanPictureRgb(print())[2]).toBeCloseTo(mean, 3);
    const finish = finishSchema.parse({ type: 'matte', reflectanceRgb: [0, 0, 0], picture: print() });
    expect(meanReflectanceRgb(finish)[0]).toBeCloseTo(mean, 3);
  });

  it('that holds fewer bytes than its size says has no colours: the finish shows', () => {
    expect(pictureReflectances(print({ widthPx: 3 }))).toBeNull();
    expect(PICTURE_HEAD).toBe(pictureHead(print()).length);
  });
});
