import { applyToPoint, type RigidTransform } from '../../core/rigid.ts';
import type { AzimuthRange, RevolvedArcShape, RevolvedLineShape } from '../../core/shape.ts';
import type { Vec3 } from '../../core/vec3.ts';

/** Bounds of points, as min xyz, max xyz. */
export function boundsOfPoints(points: readonly Vec3[]): number[] {
  const box = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  for (const p of points)
    for (let k = 0; k < 3; k++) {
      box[k] = Math.min(box[k], p[k]);
      box[k + 3] = Math.max(box[k + 3], p[k]);
    }
  return box;
}

/**
 * Bounds of a turned piece in world space: the box of its own frame, turned. Exact for upright pieces, a little loose for
 * tilted ones, which only costs the tracer a few tests.
 */
export function boundsOfRevolved(
  shape: RevolvedLineShape | RevolvedArcShape,
  worldFromLocal: RigidTransform,
): number[] {
  const { rLow, rHigh, yLow, yHigh } =
    shape.type === 'revolvedLine'
      ? {
          rLow: Math.min(shape.r0M, shape.r1M),
          rHigh: Math.max(shape.r0M, shape.r1M),
          yLow: Math.min(shape.y0M, shape.y1M),
          yHigh: Math.max(shape.y0M, shape.y1M),
        }
      : arcExtent(shape);
  const flat = shape.azimuth ? partialExtent(shape.azimuth, rLow, rHigh) : [-rHigh, -rHigh, rHigh, rHigh];
  const corners: Vec3[] = [];
  for (const x of [flat[0], flat[2]])
    for (const y of [yLow, yHigh])
      for (const z of [flat[1], flat[3]]) corners.push(applyToPoint(worldFromLocal, [x, y, z]));
  return boundsOfPoints(corners);
}

function arcExtent(shape: RevolvedArcShape): { rLow: number; rHigh: number; yLow: number; yHigh: number } {
  const low = Math.min(shape.angle0Rad, shape.angle1Rad);
  const high = Math.max(shape.angle0Rad, shape.angle1Rad);
  const angles = [low, high, ...quarterTurnsWithin(low, high)];
  const rs = angles.map((a) => Math.max(0, shape.centreRM + shape.radiusM * Math.cos(a)));
  const ys = angles.map((a) => shape.centreYM + shape.radiusM * Math.sin(a));
  return { rLow: Math.min(...rs), rHigh: Math.max(...rs), yLow: Math.min(...ys), yHigh: Math.max(...ys) };
}

function partialExtent(azimuth: AzimuthRange, rLow: number, rHigh: number): number[] {
  const angles = [azimuth.startRad, azimuth.endRad, ...quarterTurnsWithin(azimuth.startRad, azimuth.endRad)];
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  for (const a of angles)
    for (const r of [rLow, rHigh]) {
      const x = r * Math.cos(a);
      const z = r * Math.sin(a);
      box[0] = Math.min(box[0], x);
      box[1] = Math.min(box[1], z);
      box[2] = Math.max(box[2], x);
      box[3] = Math.max(box[3], z);
    }
  return box;
}

const quarterTurnsWithin = (low: number, high: number): number[] => {
  const list: number[] = [];
  for (let k = Math.ceil(low / (Math.PI / 2)); k * (Math.PI / 2) <= high; k++) list.push(k * (Math.PI / 2));
  return list;
};
