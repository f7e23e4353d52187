import { LUMINANCE_WEIGHTS_REC709 } from '../core/color/spaces.ts';
import type { Vec3 } from '../core/vec3.ts';
import { glslFloat } from './toneCurve.ts';

/** Share of the way from grey to the edge of the gamut up to which colours are left alone. */
export const GAMUT_SOFT_START = 0.9;

/**
 * Brings a display-linear Rec. 709 colour with channels outside 0..1 inside, toward the grey of its own luminance. The
 * last tenth before the edge gives way smoothly, so that colours beyond it stay apart. Luminance is kept exactly
 * (0..1); colours well inside are returned as they are.
 */
export function fitToRec709(rgb: Vec3): Vec3 {
  const y =
    LUMINANCE_WEIGHTS_REC709[0] * rgb[0] + LUMINANCE_WEIGHTS_REC709[1] * rgb[1] + LUMINANCE_WEIGHTS_REC709[2] * rgb[2];
  if (!(y > 0)) return [0, 0, 0];
  if (y >= 1) return [1, 1, 1];
  const low = Math.min(rgb[0], rgb[1], rgb[2]);
  const high = Math.max(rgb[0], rgb[1], rgb[2]);
  const reach = Math.max((y - low) / y, (high - y) / (1 - y));
  if (reach <= GAMUT_SOFT_START) return rgb;
  const keep = softReach(reach) / reach;
  return [y + (rgb[0] - y) * keep, y + (rgb[1] - y) * keep, y + (rgb[2] - y) * keep];
}

/** Maps reach 0..infinity onto 0..1: unchanged up to the soft start, then ever flatter. */
export function softReach(reach: number): number {
  const room = 1 - GAMUT_SOFT_START;
  const over = (reach - GAMUT_SOFT_START) / room;
  return over <= 0 ? reach : GAMUT_SOFT_START + (room * over) / (1 + over);
}

/** Twin of {@link fitToRec709} for shaders: `vec3 keyglassFitToRec709(vec3)`. */
export const fitToRec709Glsl = `
vec3 keyglassFitToRec709(vec3 rgb) {
  float y = dot(rgb, vec3(${LUMINANCE_WEIGHTS_REC709.map(glslFloat).join(', ')}));
  if (!(y > 0.0)) return vec3(0.0);
  if (y >= 1.0) return vec3(1.0);
  float low = min(rgb.r, min(rgb.g, rgb.b));
  float high = max(rgb.r, max(rgb.g, rgb.b));
  float reach = max((y - low) / y, (high - y) / (1.0 - y));
  if (reach <= ${glslFloat(GAMUT_SOFT_START)}) return rgb;
  float over = (reach - ${glslFloat(GAMUT_SOFT_START)}) / ${glslFloat(1 - GAMUT_SOFT_START)};
  float soft = ${glslFloat(GAMUT_SOFT_START)} + ${glslFloat(1 - GAMUT_SOFT_START)} * over / (1.0 + over);
  return vec3(y) + (rgb - vec3(y)) * (soft / reach);
}
`;
