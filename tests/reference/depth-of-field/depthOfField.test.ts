import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  airyDiameterM,
  blurCircleM,
  cameraSharpness,
  circleOfConfusionM,
  computeDepthOfField,
  hyperfocalM,
} from '../../../src/camera/depthOfField.ts';
import { findFormat, formatDiagonalMm, SENSOR_FORMATS } from '../../../src/camera/formats.ts';
import { fieldOfViewRad, imageDistanceM, magnification } from '../../../src/camera/lens.ts';
import { degFromRad } from '../../../src/core/units.ts';
import { sampleCamera } from '../../camera/sampleCamera.ts';

const present = <T>(value: T | null): T => {
  if (value === null) throw new Error('no image');
  return value;
};
/** Depth of field with everything in millimetres. */
const inMm = (f: number, n: number, c: number, s: number, p = 1) => {
  const d = present(computeDepthOfField(f / 1000, n, s / 1000, c / 1000, p));
  return { near: d.nearM * 1000, far: d.farM * 1000, total: d.totalM * 1000, hyperfocal: d.hyperfocalM * 1000 };
};
/** Focus distance for a magnification: s = f (1 + 1/m). */
const focusMm = (f: number, m: number): number => f * (1 + 1 / m);

// J. Conrad, "Depth of Field in Depth" (2006); figures computed independently.
describe('depth of field', () => {
  it.each([
    [50, 8, 0.03, 1000, 10466.667, 916.4223, 1100.3521, 183.9298],
    [100, 11, 0.025, 600, 36463.636, 591.8619, 608.365, 16.50312],
    [35, 2.8, 0.025, 1500, 17535, 1384.1287, 1637.044, 252.9153],
    [85, 4, 0.03, 800, 60293.333, 790.6112, 809.6145, 19.00337],
  ])('%i mm at f/%f, c %f mm, focused at %i mm', (f, n, c, s, hyperfocal, near, far, total) => {
    const d = inMm(f, n, c, s);
    expect(d.hyperfocal).toBeCloseTo(hyperfocal, 3);
    expect(d.near).toBeCloseTo(near, 4);
    expect(d.far).toBeCloseTo(far, 4);
    expect(d.total).toBeCloseTo(total, 4);
  });

  it('focused at the hyperfocal distance reaches from half of it (5233.333 mm) to infinity', () => {
    const h = hyperfocalM(0.05, 8, 0.00003) * 1000;
    expect(inMm(50, 8, 0.03, h).near).toBeCloseTo(5233.333, 3);
    // Exactly at H rounding decides between infinity and a very large number.
    expect(inMm(50, 8, 0.03, h * (1 + 1e-12)).far).toBe(Number.POSITIVE_INFINITY);
    expect(inMm(50, 8, 0.03, h * (1 - 1e-9)).far).toBeGreaterThan(1e9);
  });

  it.each([
    [100, 0.5, 8, 0.03, 1, 2.880066, 2.88],
    [100, 1, 16, 0.03, 1, 1.920044, 1.92],
    [100, 1, 16, 0.03, 0.5, 2.880066, 2.88],
    [100, 0.25, 11, 0.025, 1.4, 10.372684, 10.371429],
    [90, 0.1, 11, 0.03, 1, 72.69774, 72.6],
  ])('macro: %i mm at m %f, f/%f, c %f mm, pupil ratio %f is %f mm deep', (f, m, n, c, p, total, approximate) => {
    const d = inMm(f, n, c, focusMm(f, m), p);
    expect(d.total).toBeCloseTo(total, 5);
    expect((2 * n * c * (1 + m / p)) / (m * m)).toBeCloseTo(approximate, 5);
  });

  it('at half life size, 100 mm, f/8, c 0.03 mm ends at 298.56688 and 301.44695 mm with a blur of 0.0300 mm', () => {
    const d = inMm(100, 8, 0.03, focusMm(100, 0.5));
    expect(d.near).toBeCloseTo(298.56688, 4);
    expect(d.far).toBeCloseTo(301.44695, 4);
    // Thin lens by hand: the cone behind the lens, v' = f u/(u - f), cut at v = 150 mm.
    for (const u of [d.near, d.far]) {
      const v = (100 * u) / (u - 100);
      expect(((100 / 8) * Math.abs(v - 150)) / v).toBeCloseTo(0.03, 10);
    }
  });

  it('has exactly the allowed blur at both limits for any lens and pupil ratio', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        number(0.02, 0.2),
        number(1.4, 22),
        number(1.5, 30),
        number(0.4, 2.5),
        (f, n, focusInFocalLengths, p) => {
          const s = f * focusInFocalLengths;
          const d = present(computeDepthOfField(f, n, s, 25e-6, p));
          expect(blurCircleM(f, n, s, d.nearM, p) * 1e6).toBeCloseTo(25, 6);
          if (Number.isFinite(d.farM)) expect(blurCircleM(f, n, s, d.farM, p) * 1e6).toBeCloseTo(25, 3);
          expect(blurCircleM(f, n, s, s, p)).toBeCloseTo(0, 12);
        },
      ),
      { seed: 9 },
    );
  });

  it('has none when focused inside the focal length', () => {
    expect(computeDepthOfField(0.1, 8, 0.1, 3e-5)).toBeNull();
    expect(cameraSharpness(sampleCamera({ focalLengthMm: 100, focusDistanceM: 0.09 })).depthOfField).toBeNull();
  });
});

// Born & Wolf, section 8.5 (from memory): 2.44 lambda N at 0.55 um.
describe('diffraction', () => {
  it.each([
    [2.8, 3.7576],
    [5.6, 7.5152],
    [8, 10.736],
    [11, 14.762],
    [16, 21.472],
    [22, 29.524],
    [32, 42.944],
  ])('at effective f/%f draws a point %f um wide', (n, micrometres) => {
    expect(airyDiameterM(n) * 1e6).toBeCloseTo(micrometres, 6);
  });
  it('outgrows 0.0288 mm between f/16 and f/22 at a distance, and earlier in close-up', () => {
    expect(cameraSharpness(sampleCamera({ apertureFNumber: 16 })).diffractionLimited).toBe(false);
    expect(cameraSharpness(sampleCamera({ apertureFNumber: 22 })).diffractionLimited).toBe(true);
    const macro = sampleCamera({ apertureFNumber: 16, focalLengthMm: 100, focusDistanceM: 0.2 });
    expect(cameraSharpness(macro).airyDiameterM * 1e6).toBeCloseTo(42.944, 6);
  });
});

// Diagonal / 1500, a convention (from memory).
describe('circle of confusion', () => {
  it.each([
    [36, 24, 0.028844],
    [43.8, 32.9, 0.03652],
    [24.89, 18.66, 0.020739],
    [23.6, 15.6, 0.01886],
    [17.3, 13, 0.014427],
  ])('of %f x %f mm is %f mm', (sensorWidthMm, sensorHeightMm, c) => {
    expect(circleOfConfusionM({ sensorWidthMm, sensorHeightMm }) * 1000).toBeCloseTo(c, 6);
  });
  it('is a setting: /1730 gives 0.02501 mm on 36 x 24 mm', () => {
    expect(circleOfConfusionM({ sensorWidthMm: 36, sensorHeightMm: 24 }, 1730) * 1000).toBeCloseTo(0.02501, 6);
  });
});

// 2 atan(w / 2f).
describe('field of view', () => {
  it.each([
    [36, 50, 39.59775],
    [24, 50, 26.99147],
    [Math.hypot(36, 24), 50, 46.793],
    [36, 100, 20.40795],
    [24, 100, 13.68555],
    [36, 35, 54.43222],
    [24, 35, 37.84929],
  ])('%f mm of sensor behind %i mm sees %f degrees', (w, f, angle) => {
    expect(degFromRad(fieldOfViewRad(w / 1000, f / 1000))).toBeCloseTo(angle, 5);
  });
  it('narrows to 2 atan(w / 2f(1 + m)) when focused close', () => {
    const m = magnification(0.1, 0.3);
    expect(m).toBeCloseTo(0.5, 12);
    expect(fieldOfViewRad(0.036, 0.1, m)).toBeCloseTo(2 * Math.atan(0.018 / imageDistanceM(0.1, 0.3)), 12);
  });
});

describe('formats', () => {
  it('lists five sizes and their 16:9 crops by size alone', () => {
    expect(SENSOR_FORMATS.map((f) => f.name).slice(2, 4)).toEqual(['36 x 24 mm', '36 x 20.25 mm, 16:9']);
    expect(SENSOR_FORMATS).toHaveLength(10);
    for (const f of SENSOR_FORMATS.filter((x) => x.name.endsWith('16:9'))) {
      expect(Math.abs(f.widthMm / f.heightMm - 16 / 9)).toBeLessThan(2e-3);
    }
  });
  it('knows a camera by its sensor, upright too, and 36 x 24 mm has a diagonal of 43.27 mm', () => {
    expect(findFormat({ sensorWidthMm: 24, sensorHeightMm: 36 })?.name).toBe('36 x 24 mm');
    expect(findFormat({ sensorWidthMm: 50, sensorHeightMm: 50 })).toBeUndefined();
    expect(formatDiagonalMm({ widthMm: 36, heightMm: 24 })).toBeCloseTo(43.2666, 4);
  });
});
