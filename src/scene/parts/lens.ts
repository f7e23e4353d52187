import { compose, fromAxes, type RigidTransform, translation } from '../../core/rigid.ts';
import { arcAbout, lineBetween, profilePoint, shapeFromPiece } from '../profile/index.ts';
import type { SolidPart } from './solidPart.ts';

/**
 * A closed flat-convex lens: base in the plane y = 0 with radius `baseRadiusM`, top `heightM` over it on the y axis. The
 * dome is part of a ball: radius (a^2 + h^2) / 2h.
 */
export function lensDisc(role: string, baseRadiusM: number, heightM: number, placement: RigidTransform): SolidPart[] {
  const radiusM = (baseRadiusM ** 2 + heightM ** 2) / (2 * heightM);
  const centre = profilePoint(0, heightM - radiusM);
  const dome = arcAbout(centre, radiusM, Math.atan2(-centre.yM, baseRadiusM), Math.PI / 2);
  return [
    { role, shape: shapeFromPiece(dome), worldFromLocal: placement },
    {
      role,
      shape: shapeFromPiece(lineBetween(profilePoint(0, 0), profilePoint(baseRadiusM, 0))),
      worldFromLocal: placement,
    },
  ];
}

/**
 * The same drawn out along y: a bar with base in the plane x = 0, half as wide as `halfWidthM` to either side in z,
 * bulging `heightM` toward +x, straight for `lengthM` and ending in half lenses. Six faces, closed, fronts outward.
 */
export function lensBar(
  role: string,
  sizes: { readonly halfWidthM: number; readonly heightM: number; readonly lengthM: number },
  placement: RigidTransform,
): SolidPart[] {
  const { halfWidthM: a, heightM: h, lengthM } = sizes;
  const radiusM = (a * a + h * h) / (2 * h);
  const reach = Math.asin(Math.min(1, a / radiusM));
  const half = lengthM / 2;
  const parts: SolidPart[] = [
    {
      role,
      shape: {
        type: 'revolvedLine',
        r0M: radiusM,
        y0M: -half,
        r1M: radiusM,
        y1M: half,
        azimuth: { startRad: -reach, endRad: reach },
      },
      worldFromLocal: compose(placement, translation([h - radiusM, 0, 0])),
    },
    {
      role,
      shape: { type: 'quad', originM: [0, -half, -a], edgeUM: [0, 0, 2 * a], edgeVM: [0, lengthM, 0] },
      worldFromLocal: placement,
    },
  ];
  const azimuth = { startRad: -Math.PI / 2, endRad: Math.PI / 2 };
  for (const end of [-1, 1] as const) {
    // Turned about the set's +x: azimuth 0 looks along the bar, out of its end.
    const frame = compose(placement, fromAxes([0, end, 0], [1, 0, 0], [0, 0, -end], [0, end * half, 0]));
    for (const face of lensDisc(role, a, h, frame)) {
      if (face.shape.type === 'quad' || face.shape.type === 'mesh') continue;
      parts.push({ ...face, shape: { ...face.shape, azimuth } });
    }
  }
  return parts;
}
