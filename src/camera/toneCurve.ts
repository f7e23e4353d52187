import type { Vec3 } from '../core/vec3.ts';
import { MIDDLE_OVER_SATURATION } from './exposure.ts';

/**
 * The tone curve of every picture: from sensor exposure, 1 where the sensor clips, to light on the screen, 1 at white.
 *
 *     y = (1 + b) x^p / (1 + b x^p)
 *
 * p alone shapes the blacks: each stop of shadow becomes p stops, so that blacks stay black. b bends the rest over
 * into a shoulder that meets white exactly where the sensor clips, and is chosen so that a card which a spot meter
 * places at middle shows as display-linear 0.18. See docs/tone-curve.md.
 */
export interface ToneCurve {
  readonly exponent: number;
  readonly shoulder: number;
}

/** Display-linear value of middle grey; sRGB code 118. */
export const MIDDLE_DISPLAY = 0.18;

const EXPONENT = 1.2;

/** The curve of a given exponent that takes middle to {@link MIDDLE_DISPLAY}. */
export function toneCurveFromExponent(exponent: number): ToneCurve {
  const middle = MIDDLE_OVER_SATURATION ** exponent;
  return { exponent, shoulder: (MIDDLE_DISPLAY - middle) / ((1 - MIDDLE_DISPLAY) * middle) };
}

export const TONE_CURVE = toneCurveFromExponent(EXPONENT);

/** Display-linear value, 0..1, of a sensor exposure; 0 below zero, 1 above clipping. */
export function applyToneCurve(x: number, curve: ToneCurve = TONE_CURVE): number {
  if (!(x > 0)) return 0;
  if (x >= 1) return 1;
  const t = x ** curve.exponent;
  return ((1 + curve.shoulder) * t) / (1 + curve.shoulder * t);
}

/** Sensor exposure, 0..1, that shows as the display-linear value `y` in 0..1. */
export const invertToneCurve = (y: number, curve: ToneCurve = TONE_CURVE): number =>
  (y / (1 + curve.shoulder - curve.shoulder * y)) ** (1 / curve.exponent);

/**
 * The curve on a colour. The largest and the smallest channel go through it; the third keeps its place between them.
 * Highlights so fade to white without a change of hue, as they would turn yellow or cyan with a curve per channel.
 */
export function applyToneCurveRgb(rgb: Vec3, curve: ToneCurve = TONE_CURVE): Vec3 {
  const r = Math.max(0, rgb[0]);
  const g = Math.max(0, rgb[1]);
  const b = Math.max(0, rgb[2]);
  const high = Math.max(r, g, b);
  const low = Math.min(r, g, b);
  const shownLow = applyToneCurve(low, curve);
  const gain = high > low ? (applyToneCurve(high, curve) - shownLow) / (high - low) : 0;
  return [shownLow + (r - low) * gain, shownLow + (g - low) * gain, shownLow + (b - low) * gain];
}

/** Twin of {@link applyToneCurveRgb} for shaders: `vec3 keyglassToneCurve(vec3)`. */
export const toneCurveGlsl = `
float keyglassToneChannel(float x) {
  float t = pow(clamp(x, 0.0, 1.0), ${glslFloat(TONE_CURVE.exponent)});
  return ${glslFloat(1 + TONE_CURVE.shoulder)} * t / (1.0 + ${glslFloat(TONE_CURVE.shoulder)} * t);
}
vec3 keyglassToneCurve(vec3 rgb) {
  vec3 c = max(rgb, vec3(0.0));
  float high = max(c.r, max(c.g, c.b));
  float low = min(c.r, min(c.g, c.b));
  float shownLow = keyglassToneChannel(low);
  float gain = high > low ? (keyglassToneChannel(high) - shownLow) / (high - low) : 0.0;
  return vec3(shownLow) + (c - vec3(low)) * gain;
}
`;

/** A number as a GLSL float literal. */
export function glslFloat(value: number): string {
  const text = String(Math.fround(value) === value ? value : Number(value.toPrecision(9)));
  return /[.e]/.test(text) ? text : `${text}.0`;
}
