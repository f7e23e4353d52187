import { lerp, type Vec3 } from '../../core/vec3.ts';

/**
 * Part of a convex polygon on the positive side of a linear measure (Sutherland and Hodgman, 1974).
 *
 * @param side signed distance of a point, linear in it
 */
export function clipPolygon(corners: readonly Vec3[], side: (point: Vec3) => number): Vec3[] {
  const kept: Vec3[] = [];
  for (let i = 0; i < corners.length; i++) {
    const from = corners[i];
    const to = corners[(i + 1) % corners.length];
    const a = side(from);
    const b = side(to);
    if (a >= 0) kept.push(from);
    if (a >= 0 !== b >= 0) kept.push(lerp(from, to, a / (a - b)));
  }
  return kept;
}

/** Area of a polygon in x and y, positive counter-clockwise. */
export function polygonAreaXy(corners: readonly Vec3[]): number {
  let twice = 0;
  for (let i = 0; i < corners.length; i++) {
    const [a, b] = [corners[i], corners[(i + 1) % corners.length]];
    twice += a[0] * b[1] - b[0] * a[1];
  }
  return twice / 2;
}

/** Part of a convex polygon inside another convex one, both in x and y. */
export function intersectPolygonsXy(subject: readonly Vec3[], clip: readonly Vec3[]): Vec3[] {
  const turn = Math.sign(polygonAreaXy(clip));
  let rest: Vec3[] = [...subject];
  for (let i = 0; i < clip.length && rest.length > 0; i++) {
    const [a, b] = [clip[i], clip[(i + 1) % clip.length]];
    rest = clipPolygon(rest, (p) => turn * ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])));
  }
  return rest;
}
