import { describe, expect, it } from 'vitest';
import {
  developColour,
  developLinear,
  developLinearPixels,
  developParams,
  developPixels,
} from '../../src/camera/develop.ts';
import { cameraExposure } from '../../src/camera/exposure.ts';
import { rgbFromCct } from '../../src/core/color/source.ts';
import { rec2020FromRec709 } from '../../src/core/color/spaces.ts';
import { createRandom } from '../../src/core/rng.ts';
import { scale, type Vec3 } from '../../src/core/vec3.ts';
import { sampleCamera } from './sampleCamera.ts';

const camera = sampleCamera({ whiteBalanceK: 3200 });
const params = developParams(camera);
const tungsten = (nits: number): Vec3 => scale(rgbFromCct(3200), nits);

describe('developing', () => {
  it('shows a spot-metered grey card, in the light it is balanced for, as sRGB 118, 118, 118', () => {
    // sRGB of linear .18 is .4613561: 117.65.
    const pixels = developPixels(new Float32Array(tungsten(params.middleLuminanceNits)), params);
    expect([...pixels]).toEqual([118, 118, 118, 255]);
    for (const v of developColour(tungsten(params.middleLuminanceNits), params)) expect(v).toBeCloseTo(0.4613561, 6);
  });

  it('shows the same card as 118 at any ISO, shutter, stop and close-up distance', () => {
    for (const changes of [
      { iso: 3200 },
      { shutterS: 2 },
      { apertureFNumber: 2.8 },
      { focalLengthMm: 100, focusDistanceM: 0.25, pupilRatio: 0.8 },
      { whiteBalanceK: 6500 },
    ]) {
      const other = sampleCamera(changes);
      const nits = cameraExposure(other).middleLuminanceNits;
      const light = scale(rgbFromCct(other.whiteBalanceK), nits);
      expect([...developPixels(new Float32Array(light), developParams(other))]).toEqual([118, 118, 118, 255]);
    }
  });

  it('reaches 255 exactly at the saturation luminance, and not a tenth of a stop under it', () => {
    const full = params.saturationLuminanceNits;
    const pixels = developPixels(new Float32Array([...tungsten(full), ...tungsten(full * 2 ** -0.1)]), params);
    expect([...pixels.slice(0, 3)]).toEqual([255, 255, 255]);
    expect(pixels[4]).toBeLessThan(255);
    expect(pixels[4]).toBeGreaterThan(245);
  });

  it('darkens a card by one stop when shutter or ISO are halved, before the curve', () => {
    const nits = new Float32Array(tungsten(100));
    const base = developLinear(nits, params);
    for (const changes of [{ iso: 50 }, { shutterS: 1 / 250 }, { apertureFNumber: 8 * Math.SQRT2 }]) {
      const darker = developLinear(nits, developParams({ ...camera, ...changes }));
      expect((base[0] ?? 0) / (darker[0] ?? 1)).toBeCloseTo(2, 5);
    }
  });

  it('is within one code of the exact pipeline over 12 stops and wild colours, at no light and far beyond white', () => {
    const random = createRandom(21);
    const count = 4000;
    const rgb = new Float32Array(count * 3);
    for (let i = 0; i < count; i++) {
      const level = params.saturationLuminanceNits * 2 ** (12 * random() - 10);
      for (let k = 0; k < 3; k++) rgb[3 * i + k] = level * 2 ** (6 * random() - 4);
    }
    rgb.set([0, 0, 0, 1e30, 1e30, 1e30, 0, 1e6, 0, 1e6, 0, 0, 0, 0, 1e6]);
    const pixels = developPixels(rgb, params);
    for (let i = 0; i < count; i++) {
      const exact = developColour([rgb[3 * i] ?? 0, rgb[3 * i + 1] ?? 0, rgb[3 * i + 2] ?? 0], params);
      exact.forEach((v, k) => {
        expect(Math.abs(255 * v - (pixels[4 * i + k] ?? 0))).toBeLessThan(1);
      });
      expect(pixels[4 * i + 3]).toBe(255);
    }
  });

  it('shows pixels that are no finite numbers as black', () => {
    const bad = new Float32Array([Number.NaN, 1, 1, 1, Number.POSITIVE_INFINITY, 1]);
    expect([...developPixels(bad, params)]).toEqual([0, 0, 0, 255, 0, 0, 0, 255]);
  });

  it('writes into the buffer that it is given', () => {
    const out = new Uint8ClampedArray(8);
    expect(developPixels(new Float32Array(6).fill(50), params, out)).toBe(out);
    expect(out[3]).toBe(255);
  });

  it('shows a Rec. 709 red, balanced and below the shoulder, still red', () => {
    // D65 is about 6504 K, duv +.0032: on a camera set to 6504 K it is all but neutral.
    const daylight = developParams(sampleCamera({ whiteBalanceK: 6504 }));
    const red = scale(rec2020FromRec709([0.5, 0.05, 0.05]), daylight.saturationLuminanceNits * 0.3);
    const [r, g, b] = developColour(red, daylight);
    expect(r).toBeGreaterThan(2 * g);
    expect(Math.abs(g - b)).toBeLessThan(0.08);
  });
});

describe('linear development', () => {
  it('is 1 in all channels at the saturation luminance of balanced light, without clipping above', () => {
    const linear = developLinear(new Float32Array(tungsten(3 * params.saturationLuminanceNits)), params);
    for (const v of linear) expect(v).toBeCloseTo(3, 5);
  });
  it('as pixels is the sRGB transfer alone: a tenth of saturation is 89', () => {
    // 255 x (1.055 x .1^(1/2.4) - .055) = 89.0.
    const pixels = developLinearPixels(new Float32Array(tungsten(0.1 * params.saturationLuminanceNits)), params);
    for (const v of pixels.slice(0, 3)) expect(Math.abs(v - 89)).toBeLessThanOrEqual(1);
    const clipped = developLinearPixels(new Float32Array(tungsten(9 * params.saturationLuminanceNits)), params);
    expect([...clipped]).toEqual([255, 255, 255, 255]);
  });
});
