import { IDENTITY } from '../../core/rigid.ts';
import type { MeshShape } from '../../core/shape.ts';
import { add, addScaled, cross, dot, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { gridMesh } from '../parts/mesh.ts';
import type { Garnish } from '../records.ts';
import type { GarnishPart } from './garnishPart.ts';
import { CITRUS } from './looks.ts';

export type Twist = Extract<Garnish, { kind: 'twist' }>;

const THICKNESS_M = 0.0011;

/**
 * A strip of peel along a curve: peel on the side of `outward`, pith on the other, both smooth meshes that meet along
 * their edges. The strip lies across the curve, square to `outward`, and narrows to its ends.
 */
export function stripParts(
  twist: Twist,
  curve: (t: number) => Vec3,
  outward: (t: number, direction: Vec3) => Vec3,
): GarnishPart[] {
  const look = CITRUS[twist.fruit];
  const rows = 96;
  const direction = (t: number): Vec3 => normalize(sub(curve(Math.min(1, t + 1e-3)), curve(Math.max(0, t - 1e-3))));
  const point = (u: number, t: number, side: 1 | -1): Vec3 => {
    const d = direction(t);
    const o = outward(t, d);
    const out = normalize(sub(o, scale(d, dot(o, d))));
    const across = cross(d, out);
    const taper = Math.min(1, Math.sqrt(Math.max(0, Math.min(t, 1 - t)) / 0.1));
    const halfWidthM = (twist.widthM / 2) * (0.12 + 0.88 * taper);
    const x = 2 * u - 1;
    // Peel is arched a little, and both faces come together at the edges.
    const thick = (THICKNESS_M / 2) * Math.sqrt(Math.max(0, 1 - x ** 6));
    const arch = 0.06 * twist.widthM * (1 - x * x);
    return add(addScaled(curve(t), across, x * halfWidthM), scale(out, side * thick + arch));
  };
  const face = (side: 1 | -1): MeshShape =>
    side > 0 ? gridMesh(6, rows, (u, t) => point(1 - u, t, 1)) : gridMesh(6, rows, (u, t) => point(u, t, -1));
  return [
    { role: 'peel', shape: face(1), worldFromLocal: IDENTITY, finish: look.peel },
    { role: 'pith', shape: face(-1), worldFromLocal: IDENTITY, finish: look.pith },
  ];
}

/** A curve through points, smooth (E. Catmull and R. Rom, "A class of local interpolating splines", 1974). */
export function smoothCurve(points: readonly Vec3[]): (t: number) => Vec3 {
  const last = points.length - 1;
  const at = (i: number): Vec3 => points[Math.max(0, Math.min(last, i))];
  return (t) => {
    const s = Math.max(0, Math.min(1, t)) * last;
    const i = Math.min(last - 1, Math.floor(s));
    const f = s - i;
    const [p0, p1, p2, p3] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
    const mix = (k: 0 | 1 | 2): number =>
      0.5 *
      (2 * p1[k] +
        (p2[k] - p0[k]) * f +
        (2 * p0[k] - 5 * p1[k] + 4 * p2[k] - p3[k]) * f * f +
        (3 * p1[k] - p0[k] - 3 * p2[k] + p3[k]) * f * f * f);
    return [mix(0), mix(1), mix(2)];
  };
}

/** Radius of a coil that so much of the strip makes in its turns; no tighter than peel bends, no wider than fruit. */
export const coilRadiusM = (stripM: number, turns: number): number =>
  Math.min(0.011, Math.max(0.0045, stripM / (2 * Math.PI * turns)));

/** The curl of a strip about an axis: `turns` rounds of a coil from `from`, going along `axis`. */
export function coilPoints(
  originM: Vec3,
  axis: Vec3,
  start: Vec3,
  sizes: { readonly radiusM: number; readonly pitchM: number; readonly turns: number },
): Vec3[] {
  const side = cross(axis, start);
  const count = Math.max(4, Math.round(12 * sizes.turns));
  return Array.from({ length: count + 1 }, (_, i): Vec3 => {
    const a = (2 * Math.PI * sizes.turns * i) / count;
    const grow = 1 - 0.25 * (i / count);
    return addScaled(
      add(originM, scale(axis, (sizes.pitchM * a) / (2 * Math.PI))),
      add(scale(start, Math.cos(a)), scale(side, Math.sin(a))),
      sizes.radiusM * grow,
    );
  });
}
