import { applyToDirection, applyToPoint } from '../../core/rigid.ts';
import { add, cross, length, normalize, type Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import type { CheckInput } from '../contracts.ts';
import type { Plane } from './mirrorImage.ts';
import { isMirrorLike } from './surfaceTable.ts';

/** A flat surface that shows mirror images, with its outline. */
export interface PlanarMirror extends Plane {
  readonly surfaceIndex: number;
  readonly recordId: string;
  /** Corners in order round it, world, metres. A disc is given by 24 points of its rim. */
  readonly outlineM: readonly Vec3[];
}

const RIM_POINTS = 24;

/** The flat mirror-like faces of the set, both sides; those of glass pieces are left to the ray walk. */
export const planarMirrors = ({ set, scene }: Pick<CheckInput, 'set' | 'scene'>): PlanarMirror[] => {
  const glassIds = new Set(scene.pieces.filter(({ kind }) => kind === 'glass').map(({ id }) => id));
  return set.surfaces.flatMap((surface, surfaceIndex) => {
    if (glassIds.has(surface.recordId) || !isMirrorLike(surface.finish)) return [];
    const outlineM = flatOutline(surface);
    if (!outlineM) return [];
    const normal = normalize(cross(difference(outlineM[1], outlineM[0]), difference(outlineM[2], outlineM[1])));
    return [{ surfaceIndex, recordId: surface.recordId, pointM: outlineM[0], normal, outlineM }];
  });
};

/** Outline of a flat surface, or null for a curved one. Rings with a hole are given by their outer rim. */
export function flatOutline({ shape, worldFromLocal }: OpticalSurface): Vec3[] | null {
  if (shape.type === 'quad') {
    const o = applyToPoint(worldFromLocal, shape.originM);
    const u = applyToDirection(worldFromLocal, shape.edgeUM);
    const v = applyToDirection(worldFromLocal, shape.edgeVM);
    return length(cross(u, v)) > 0 ? [o, add(o, u), add(add(o, u), v), add(o, v)] : null;
  }
  if (shape.type === 'revolvedLine' && Math.abs(shape.y1M - shape.y0M) < 1e-9 && !shape.azimuth) {
    const radiusM = Math.max(shape.r0M, shape.r1M);
    return Array.from({ length: RIM_POINTS }, (_, i) => {
      const a = (2 * Math.PI * i) / RIM_POINTS;
      return applyToPoint(worldFromLocal, [radiusM * Math.cos(a), shape.y0M, -radiusM * Math.sin(a)]);
    });
  }
  return null;
}

const difference = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
