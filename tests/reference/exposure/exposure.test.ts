import { describe, expect, it } from 'vitest';
import {
  cameraExposure,
  closeUpLossStops,
  effectiveFNumber,
  ev100FromIlluminance,
  ev100FromLuminance,
  ev100FromSettings,
  illuminanceLuxForStop,
  illuminanceLuxFromEv100,
  luminanceNitsFromEv100,
  MIDDLE_OVER_SATURATION,
  meterReflectance,
  meterStop,
  meterStopFromLuminance,
  saturationLuminanceNits,
  shutterSForStop,
} from '../../../src/camera/exposure.ts';
import {
  exactFNumber,
  FULL_STOPS,
  formatShutter,
  formatStop,
  nearestStop,
  shutterAngleDeg,
  shutterSFromAngle,
  THIRD_STOPS,
} from '../../../src/camera/stops.ts';
import { stopsFromDensity } from '../../../src/core/units.ts';
import { sampleCamera } from '../../camera/sampleCamera.ts';

// ISO 2720:1974, EV100 = log2(100 E / C), log2(100 L / K); figures computed independently.
describe('metering', () => {
  it.each([
    [2.5, 0],
    [50, 4.32193],
    [100, 5.32193],
    [250, 6.64386],
    [320, 7],
    [500, 7.64386],
    [1000, 8.64386],
    [2000, 9.64386],
    [5000, 10.96578],
    [10000, 11.96578],
    [81920, 15],
  ])('reads %f lx as EV100 %f with C = 250', (lux, ev) => {
    expect(ev100FromIlluminance(lux)).toBeCloseTo(ev, 5);
    expect(illuminanceLuxFromEv100(ev100FromIlluminance(lux)) / lux).toBeCloseTo(1, 12);
  });
  it.each([
    [320, 8.28771],
    [330, 8.24332],
    [340, 8.20025],
  ])('reads 1000 lx with C = %i as EV100 %f', (c, ev) => {
    expect(ev100FromIlluminance(1000, c)).toBeCloseTo(ev, 5);
  });
  it.each([
    [0.125, 12.5, 0],
    [1, 12.5, 3],
    [57.29578, 12.5, 8.84036],
    [57.29578, 14, 8.67686],
    [4096, 12.5, 15],
  ])('reads %f cd/m2 with K = %f as EV100 %f', (nits, k, ev) => {
    expect(ev100FromLuminance(nits, k)).toBeCloseTo(ev, 5);
    expect(luminanceNitsFromEv100(ev100FromLuminance(nits, k), k) / nits).toBeCloseTo(1, 12);
  });
  it.each([
    [1000, 100, 1 / 50, 250, 2.828427],
    [2000, 400, 1 / 48, 250, 8.164966],
    [5000, 800, 1 / 125, 340, 9.701425],
    [800, 800, 1 / 48, 320, 6.454972],
    [20000, 100, 1 / 125, 250, 8],
  ])('gives for %f lx at ISO %i, %f s, C = %i the stop f/%f', (lux, iso, shutterS, c, stop) => {
    expect(Math.abs(meterStop(lux, iso, shutterS, c) - stop)).toBeLessThan(5.1e-7);
  });
  it('needs 960 lx for f/5.657 at ISO 400, 1/48 s, and 0.16 s for f/8 in 1000 lx at ISO 100', () => {
    expect(illuminanceLuxForStop(2 ** 2.5, 400, 1 / 48)).toBeCloseTo(960, 9);
    expect(shutterSForStop(8, 1000, 100)).toBeCloseTo(0.16, 12);
  });
  it.each([
    [12.5, 250, 0.15708],
    [14, 250, 0.175929],
    [12.5, 340, 0.1155],
    [14, 340, 0.12936],
    [12.5, 320, 0.122718],
  ])('agrees between incident and spot on a matte %f / %i card of reflectance %f', (k, c, rho) => {
    expect(meterReflectance(k, c)).toBeCloseTo(rho, 6);
    // The same, by metering that card both ways (L = rho E / pi).
    expect(meterStopFromLuminance((meterReflectance(k, c) * 3000) / Math.PI, 100, 0.02, k)).toBeCloseTo(
      meterStop(3000, 100, 0.02, c),
      10,
    );
  });
});

// ISO 12232 (clauses from memory): H = q L t/N^2, q = .65; saturation speed 78/H.
describe('saturation', () => {
  it('clips at 1.2 x 2^EV100: 4915.2 cd/m2 at EV100 12', () => {
    // f/8, 1/64 s, ISO 100: EV 12 exactly.
    expect(ev100FromSettings(8, 1 / 64, 100)).toBeCloseTo(12, 12);
    expect(saturationLuminanceNits(8, 100, 1 / 64)).toBeCloseTo(1.2 * 4096, 9);
  });
  it('has a sensor exposure of 78/S there: 0.78 lx s at ISO 100', () => {
    const nits = saturationLuminanceNits(8, 100, 1 / 64);
    expect((0.65 * nits * (1 / 64)) / 8 ** 2).toBeCloseTo(0.78, 12);
  });
  it('puts a spot-metered card (K = 12.5) at 10.4167 % of clipping, 3.26303 stops under it', () => {
    // .125 / 1.2.
    expect(MIDDLE_OVER_SATURATION).toBeCloseTo(0.1041667, 7);
    expect(-Math.log2(MIDDLE_OVER_SATURATION)).toBeCloseTo(3.263034, 6);
    const exposure = cameraExposure(sampleCamera());
    expect(exposure.middleLuminanceNits / exposure.saturationLuminanceNits).toBeCloseTo(0.125 / 1.2, 12);
    expect(ev100FromLuminance(exposure.middleLuminanceNits)).toBeCloseTo(exposure.ev100, 12);
  });
  it('puts the sensor exposure 10/S of standard output sensitivity at K = 15.385, 2.96347 stops under clipping', () => {
    // H = .65 K/S = 10/S.
    const k = 10 / 0.65;
    expect(k / 120).toBeCloseTo(10 / 78, 12);
    expect(Math.log2(120 / k)).toBeCloseTo(2.96347, 5);
  });
});

// J. Conrad, "Depth of Field in Depth" (2006).
describe('close-up loss', () => {
  it.each([
    [8, 0.5, 1, 12, 1.169925],
    [8, 1, 1, 16, 2],
    [8, 1, 0.5, 24, 3.169925],
    [4, 0.25, 1.4, 4.714286, 0.474078],
    [11, 0.1, 1, 12.1, 0.275007],
  ])('f/%f at magnification %f, pupil ratio %f works as f/%f, %f stops down', (n, m, p, effective, stops) => {
    expect(effectiveFNumber(n, m, p)).toBeCloseTo(effective, 6);
    expect(closeUpLossStops(m, p)).toBeCloseTo(stops, 6);
  });
  it('raises the EV that a macro camera needs: 100 mm at 0.3 m loses 1.169925 stops', () => {
    const far = cameraExposure(sampleCamera({ focalLengthMm: 100, focusDistanceM: 200 }));
    const near = cameraExposure(sampleCamera({ focalLengthMm: 100, focusDistanceM: 0.3 }));
    expect(near.magnification).toBeCloseTo(0.5, 12);
    expect(near.ev100 - far.ev100).toBeCloseTo(1.169925 - far.closeUpLossStops, 6);
    expect(near.closeUpLossStops).toBeCloseTo(1.169925, 6);
  });
});

// ISO 517 marks (from memory); exact values 2^(k/6).
describe('stops', () => {
  it('has the full stops 1, 1.41421, 2, ... 32 exactly', () => {
    const exact = [1, Math.SQRT2, 2, 2.82843, 4, 5.65685, 8, 11.31371, 16, 22.62742, 32];
    exact.forEach((value, k) => {
      expect(FULL_STOPS[k]?.fNumber).toBeCloseTo(value, 5);
    });
  });
  it('has the third stops 1.12246, 1.25992, 1.41421, 1.58740, 1.78180 after f/1', () => {
    [1, 1.12246, 1.25992, Math.SQRT2, 1.5874, 1.7818, 2].forEach((value, k) => {
      expect(THIRD_STOPS[k]?.fNumber).toBeCloseTo(value, 5);
    });
  });
  it('marks them 1 1.1 1.2 1.4 ... 22, each within 7 % of its exact value', () => {
    const marks = '1 1.1 1.2 1.4 1.6 1.8 2 2.2 2.5 2.8 3.2 3.5 4 4.5 5 5.6 6.3 7.1 8 9 10 11 13 14 16 18 20 22';
    expect(
      THIRD_STOPS.slice(0, 28)
        .map((s) => s.marked)
        .join(' '),
    ).toBe(marks);
    for (const stop of THIRD_STOPS) expect(Math.abs(Number(stop.marked) / stop.fNumber - 1)).toBeLessThan(0.07);
  });
  it.each([
    [11, 11.3137],
    [22, 22.6274],
    [5.6, 5.65685],
    [8, 8],
    [1.19, 1.19],
  ])('knows that the mark %f means f/%f', (marked, exact) => {
    expect(exactFNumber(marked)).toBeCloseTo(exact, 4);
  });
  it.each([
    [8.164966, 'f/8 +0.1'],
    [9.701425, 'f/10 -0.1'],
    [8, 'f/8'],
    [11.3, 'f/11'],
    [90, 'f/64 +1.0'],
  ])('writes f-number %f as %s', (n, text) => {
    expect(formatStop(n)).toBe(text);
  });
  it('chooses the nearest in stops, not in f-number', () => {
    // Between f/8 and f/9 (8.98) the middle is 2^(18.5/6) = 8.476 (their arithmetic mean is 8.49).
    expect(nearestStop(8.47).marked).toBe('8');
    expect(nearestStop(8.48).marked).toBe('9');
  });
  it('takes density 0.3 as 0.996578 and 0.9 as 2.989735 stops', () => {
    expect(stopsFromDensity(0.3)).toBeCloseTo(0.996578, 6);
    expect(stopsFromDensity(0.9)).toBeCloseTo(2.989735, 6);
  });
});

// t = angle / (360 fps), the definition of the shutter angle.
describe('shutter angle', () => {
  it.each([
    [180, 24, 48],
    [172.8, 24, 50],
    [144, 24, 60],
    [180, 25, 50],
    [150, 25, 60],
    [216, 30, 50],
    [180, 30, 60],
  ])('%f degrees at %i frames a second is 1/%i s', (angle, fps, denominator) => {
    expect(shutterSFromAngle(angle, fps)).toBeCloseTo(1 / denominator, 12);
    expect(shutterAngleDeg(1 / denominator, fps)).toBeCloseTo(angle, 9);
  });
  it('is written 1/50 s, 0.5 s, 2 s', () => {
    expect([1 / 50, 0.5, 2].map(formatShutter)).toEqual(['1/50 s', '0.5 s', '2 s']);
  });
});
