import { addScaled, dot, sub, type Vec3 } from '../../core/vec3.ts';
import type { Plane } from '../specular/mirrorImage.ts';

/**
 * Width of the soft edge that a point of an occluder's edge throws on a plane, measured along `along`: every point of the
 * light's outline is projected through the edge onto the plane, and the spread of the images is the penumbra. For a light
 * of width s parallel to the plane, a from the edge, and the plane b beyond it, that is s b / a.
 *
 * @param along unit, in the plane: across the edge
 * @returns metres; null when some of the light is not above the edge, so that its shadow never ends
 */
export function penumbraOf(outlineM: readonly Vec3[], edgeM: Vec3, plane: Plane, along: Vec3): number | null {
  const edgeH = dot(sub(edgeM, plane.pointM), plane.normal);
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const lightM of outlineM) {
    const lightH = dot(sub(lightM, plane.pointM), plane.normal);
    if (lightH <= edgeH + 1e-6) return null;
    const imageM = addScaled(lightM, sub(edgeM, lightM), lightH / (lightH - edgeH));
    const at = dot(imageM, along);
    least = Math.min(least, at);
    most = Math.max(most, at);
  }
  return outlineM.length > 0 ? most - least : null;
}

/** Width of the full shadow of a strip `widthM` wide: w - (s - w) b / a, gone (0) from b = a w / (s - w) on. */
export const umbraWidthM = (widthM: number, sourceM: number, toEdgeM: number, beyondM: number): number =>
  Math.max(0, widthM - ((sourceM - widthM) * beyondM) / toEdgeM);
