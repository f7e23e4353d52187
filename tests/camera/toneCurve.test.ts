import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MIDDLE_OVER_SATURATION } from '../../src/camera/exposure.ts';
import {
  applyToneCurve,
  applyToneCurveRgb,
  glslFloat,
  invertToneCurve,
  TONE_CURVE,
  toneCurveFromExponent,
} from '../../src/camera/toneCurve.ts';
import type { Vec3 } from '../../src/core/vec3.ts';

const unit = fc.double({ min: 0, max: 1, noNaN: true });

describe('tone curve', () => {
  it('takes a spot-metered card (12.5/120 of clipping) to display-linear 0.18', () => {
    expect(applyToneCurve(12.5 / 120)).toBeCloseTo(0.18, 12);
    expect(applyToneCurve(MIDDLE_OVER_SATURATION, toneCurveFromExponent(1))).toBeCloseTo(0.18, 12);
  });

  it('runs from 0 at no light to exactly 1 where the sensor clips, and holds beyond both', () => {
    expect(applyToneCurve(0)).toBe(0);
    expect(applyToneCurve(1 - 1e-12)).toBeCloseTo(1, 10);
    expect(applyToneCurve(1)).toBe(1);
    expect(applyToneCurve(50)).toBe(1);
    expect(applyToneCurve(Number.POSITIVE_INFINITY)).toBe(1);
    expect(applyToneCurve(-3)).toBe(0);
    expect(applyToneCurve(Number.NaN)).toBe(0);
  });

  it('rises everywhere, with a slope that never jumps', () => {
    const steps = 20000;
    let lastSlope = 0;
    for (let i = 1; i <= steps; i++) {
      const slope = (applyToneCurve(i / steps) - applyToneCurve((i - 1) / steps)) * steps;
      expect(slope).toBeGreaterThan(0);
      // The slope starts at 0 like x^0.2, so only its very first steps are steep.
      if (i > 20) expect(Math.abs(slope - lastSlope)).toBeLessThan(0.03);
      lastSlope = slope;
    }
  });

  it('keeps blacks black: 6 stops under middle shows darker than plain scaling would, yet is told from 7 under', () => {
    const shown = (stops: number): number => applyToneCurve(MIDDLE_OVER_SATURATION * 2 ** stops);
    expect(shown(-6)).toBeLessThan(0.18 * 2 ** -6);
    expect(shown(-6)).toBeGreaterThan(0.18 * 2 ** -8);
    // Deep down every stop of light becomes p = 1.2 stops on the screen, evenly.
    expect(Math.log2(shown(-11) / shown(-12))).toBeCloseTo(TONE_CURVE.exponent, 3);
  });

  it('bends highlights gently: the slope at white is between a quarter and a half', () => {
    const slope = (1 - applyToneCurve(0.9999)) / 0.0001;
    expect(slope).toBeGreaterThan(0.25);
    expect(slope).toBeLessThan(0.5);
  });

  it('is undone by its inverse', () => {
    fc.assert(
      fc.property(unit, (y) => {
        expect(applyToneCurve(invertToneCurve(y))).toBeCloseTo(y, 10);
      }),
      { seed: 11 },
    );
    expect(invertToneCurve(0.18)).toBeCloseTo(12.5 / 120, 12);
  });
});

describe('tone curve on colours', () => {
  it('treats greys as the plain curve', () => {
    expect(applyToneCurveRgb([0.1, 0.1, 0.1])).toEqual([applyToneCurve(0.1), applyToneCurve(0.1), applyToneCurve(0.1)]);
  });

  it('keeps the order of channels and the place of the middle one, so the hue stays', () => {
    const level = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(level, level, level), (rgb) => {
        const shown = applyToneCurveRgb(rgb);
        const [low, mid, high] = [...rgb].sort((a, b) => a - b) as [number, number, number];
        const [shownLow, shownMid, shownHigh] = [...shown].sort((a, b) => a - b) as [number, number, number];
        expect(shownLow).toBeGreaterThanOrEqual(0);
        expect(shownHigh).toBeLessThanOrEqual(1 + 1e-12);
        if (shownHigh - shownLow > 1e-6) {
          expect((shownMid - shownLow) / (shownHigh - shownLow)).toBeCloseTo((mid - low) / (high - low), 6);
        }
      }),
      { seed: 12 },
    );
  });

  it('fades a saturated orange to pale orange and white, not to yellow', () => {
    const orange: Vec3 = [1, 0.4, 0.05];
    for (const gain of [1, 3, 8]) {
      const [r, g, b] = applyToneCurveRgb([orange[0] * gain, orange[1] * gain, orange[2] * gain]);
      expect((g - b) / (r - b)).toBeCloseTo((0.4 - 0.05) / 0.95, 10);
    }
    expect(Math.min(...applyToneCurveRgb([20, 8, 1]))).toBe(1);
  });

  it('takes negative channels as none', () => {
    expect(applyToneCurveRgb([-0.2, 0.3, 0.1])[0]).toBe(0);
  });
});

describe('glslFloat', () => {
  it.each([
    [1, '1.0'],
    [0.5, '0.5'],
    [1.2, '1.2'],
    [1e-7, '1e-7'],
    [-3, '-3.0'],
  ])('writes %f as %s', (value, text) => {
    expect(glslFloat(value)).toBe(text);
  });
});
