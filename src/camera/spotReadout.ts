import { luminanceFromRec2020 } from '../core/color/spaces.ts';
import { applyMatrix3 } from '../core/matrix3.ts';
import type { Vec3 } from '../core/vec3.ts';
import { type DevelopParams, developParams } from './developParams.ts';
import { ev100FromLuminance } from './exposure.ts';
import type { Camera } from './records.ts';

/** What a spot meter says of a place in the picture, and where the camera puts it. */
export interface SpotReadout {
  readonly luminanceNits: number;
  /** Stops over (+) or under (-) what the camera's settings place at middle; -Infinity for no light. */
  readonly stopsFromMiddle: number;
  /** The fullest channel after white balance, against clipping: from 100 on that channel is lost. */
  readonly percentOfClip: number;
  /** What the meter would read, EV at ISO 100, K = 12.5. */
  readonly ev100: number;
}

/** Reads one working colour in cd/m2 against a camera's settings (or settings already worked out). */
export function spotReadout(rgbNits: Vec3, settings: Camera | DevelopParams): SpotReadout {
  const params = 'sensorFromNits' in settings ? settings : developParams(settings);
  const luminanceNits = Math.max(0, luminanceFromRec2020(rgbNits));
  return {
    luminanceNits,
    stopsFromMiddle: Math.log2(luminanceNits / params.middleLuminanceNits),
    percentOfClip: 100 * Math.max(0, ...applyMatrix3(params.sensorFromNits, rgbNits)),
    ev100: ev100FromLuminance(luminanceNits),
  };
}

/** A picture as light: width x height x 3, working RGB, cd/m2, row 0 at the top. */
export interface LightPicture {
  readonly rgbNits: Float32Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * Reads a round spot of a picture, as a meter with that angle of acceptance would: the mean of the pixels whose
 * centres lie within `radiusPx` of the point (at least the one pixel under it).
 *
 * @param point u right, v down, 0..1; held inside the picture.
 */
export function spotReadoutAt(
  picture: LightPicture,
  point: { readonly u: number; readonly v: number },
  settings: Camera | DevelopParams,
  radiusPx = 0,
): SpotReadout {
  const { rgbNits, widthPx, heightPx } = picture;
  const x = Math.min(widthPx - 1, Math.max(0, Math.floor(point.u * widthPx)));
  const y = Math.min(heightPx - 1, Math.max(0, Math.floor(point.v * heightPx)));
  const reach = Math.floor(radiusPx);
  let r = 0;
  let g = 0;
  let b = 0;
  let count = 0;
  for (let py = Math.max(0, y - reach); py <= Math.min(heightPx - 1, y + reach); py++) {
    for (let px = Math.max(0, x - reach); px <= Math.min(widthPx - 1, x + reach); px++) {
      if ((px - x) ** 2 + (py - y) ** 2 > radiusPx ** 2) continue;
      const i = (py * widthPx + px) * 3;
      r += rgbNits[i];
      g += rgbNits[i + 1];
      b += rgbNits[i + 2];
      count++;
    }
  }
  return spotReadout([r / count, g / count, b / count], settings);
}
