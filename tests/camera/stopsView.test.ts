import { describe, expect, it } from 'vitest';
import { developParams, spotReadout, spotReadoutAt } from '../../src/camera/develop.ts';
import { bandOfStops, CLIPPING_STOPS, STOPS_BANDS, stopsViewPixels } from '../../src/camera/stopsView.ts';
import { deltaE2000, labFromRec709 } from '../../src/core/color/difference.ts';
import { rgbFromCct } from '../../src/core/color/source.ts';
import { decodeSrgb } from '../../src/core/color/spaces.ts';
import { scale, type Vec3 } from '../../src/core/vec3.ts';
import { sampleCamera } from './sampleCamera.ts';

const camera = sampleCamera();
const params = developParams(camera);
const balanced = (nits: number): Vec3 => scale(rgbFromCct(5600), nits);
const labOf = (rgb: readonly [number, number, number]): Vec3 =>
  labFromRec709([decodeSrgb(rgb[0] / 255), decodeSrgb(rgb[1] / 255), decodeSrgb(rgb[2] / 255)]);

describe('stops view key', () => {
  it('covers all luminances without gap or overlap, labelled from under -6 to clipped', () => {
    expect(STOPS_BANDS.map((b) => b.label)).toEqual([
      'under -6',
      '-6',
      '-5',
      '-4',
      '-3',
      '-2',
      '-1',
      'middle',
      '+1',
      '+2',
      '+3',
      'clipped',
    ]);
    expect(STOPS_BANDS[0]?.fromStops).toBe(Number.NEGATIVE_INFINITY);
    expect(STOPS_BANDS.at(-1)?.toStops).toBe(Number.POSITIVE_INFINITY);
    STOPS_BANDS.slice(1).forEach((band, i) => {
      expect(band.fromStops).toBe(STOPS_BANDS[i]?.toStops);
    });
    // 120/12.5.
    expect(CLIPPING_STOPS).toBeCloseTo(Math.log2(9.6), 12);
  });

  it('climbs in lightness by at least 7 L* from band to band, so that it needs no colour vision', () => {
    STOPS_BANDS.slice(1).forEach((band, i) => {
      const before = STOPS_BANDS[i];
      if (before === undefined) return;
      expect(labOf(band.rgb)[0] - labOf(before.rgb)[0]).toBeGreaterThan(7);
      expect(deltaE2000(labOf(band.rgb), labOf(before.rgb))).toBeGreaterThan(4);
    });
  });
});

describe('stopsViewPixels', () => {
  it.each([-9, -6, -3, -1, 0, 1, 3])('paints light %i stops from middle in its own band', (stops) => {
    const pixels = stopsViewPixels(new Float32Array(balanced(params.middleLuminanceNits * 2 ** stops)), params);
    const band = STOPS_BANDS.find((b) => stops >= b.fromStops && stops < b.toStops);
    expect([...pixels]).toEqual([...(band?.rgb ?? []), 255]);
    expect(STOPS_BANDS[bandOfStops(stops)]).toBe(band);
  });
  it('changes band half a stop either side of middle', () => {
    expect([-0.51, -0.49, 0.49, 0.51].map((s) => STOPS_BANDS[bandOfStops(s)]?.label)).toEqual([
      '-1',
      'middle',
      'middle',
      '+1',
    ]);
  });
  it('marks clipping when one channel alone is full, with stripes where the width is known', () => {
    const blue = new Float32Array(64 * 3);
    for (let i = 0; i < 64; i++) blue.set([0, 0, 3 * params.saturationLuminanceNits], 3 * i);
    const plain = stopsViewPixels(blue, params);
    expect(plain[0]).toBe(255);
    const striped = stopsViewPixels(blue, params, undefined, 8);
    const reds = Array.from({ length: 64 }, (_, i) => striped[4 * i]);
    expect(reds.slice(0, 8)).toEqual([0, 0, 0, 0, 255, 255, 255, 255]);
    expect(reds.slice(8, 16)).toEqual([0, 0, 0, 255, 255, 255, 255, 0]);
  });
  it('paints black and pixels that are not numbers in the lowest band', () => {
    const pixels = stopsViewPixels(new Float32Array([0, 0, 0, Number.NaN, 0, 0]), params);
    expect([...pixels.slice(0, 3)]).toEqual([...(STOPS_BANDS[0]?.rgb ?? [])]);
    expect([...pixels.slice(4, 7)]).toEqual([...(STOPS_BANDS[0]?.rgb ?? [])]);
  });
});

describe('spotReadout', () => {
  it('reads 57.29578 cd/m2 as EV100 8.84036 (ISO 2720, K = 12.5)', () => {
    const reading = spotReadout([57.29578, 57.29578, 57.29578], camera);
    expect(reading.luminanceNits).toBeCloseTo(57.29578, 9);
    expect(reading.ev100).toBeCloseTo(8.84036, 5);
  });
  it('is 0 stops and 10.4167 % of clipping at middle in balanced light, 3.263 stops and 100 % at saturation', () => {
    const middle = spotReadout(balanced(params.middleLuminanceNits), camera);
    expect(middle.stopsFromMiddle).toBeCloseTo(0, 10);
    expect(middle.percentOfClip).toBeCloseTo(10.41667, 5);
    const full = spotReadout(balanced(params.saturationLuminanceNits), params);
    expect(full.stopsFromMiddle).toBeCloseTo(3.263034, 6);
    expect(full.percentOfClip).toBeCloseTo(100, 9);
  });
  it('counts the fullest channel: tungsten on a daylight balance clips in red before its luminance says so', () => {
    const reading = spotReadout(scale(rgbFromCct(2700), params.saturationLuminanceNits * 0.8), camera);
    expect(reading.percentOfClip).toBeGreaterThan(100);
    expect(reading.stopsFromMiddle).toBeLessThan(CLIPPING_STOPS);
  });
  it('reads no light as -Infinity stops', () => {
    expect(spotReadout([0, 0, 0], camera).stopsFromMiddle).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe('spotReadoutAt', () => {
  // 4 x 2 picture, luminance 1 to 8, row 0 on top.
  const picture = {
    rgbNits: Float32Array.from({ length: 24 }, (_, i) => 1 + Math.floor(i / 3)),
    widthPx: 4,
    heightPx: 2,
  };
  it.each([
    [0, 0, 1],
    [0.99, 0, 4],
    [0.3, 0.7, 6],
    [1, 1, 8],
    [-2, 5, 5],
  ])('at u %f, v %f reads %f cd/m2', (u, v, nits) => {
    expect(spotReadoutAt(picture, { u, v }, camera).luminanceNits).toBeCloseTo(nits, 6);
  });
  it('averages the round spot: radius 1 about the second pixel of the top row takes 1, 2, 3 and 6', () => {
    expect(spotReadoutAt(picture, { u: 0.3, v: 0.1 }, camera, 1).luminanceNits).toBeCloseTo(3, 6);
  });
});
