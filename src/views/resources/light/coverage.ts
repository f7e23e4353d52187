import { cross, dot, length, sub, type Vec3 } from '../../../core/vec3.ts';
import type {
  ApertureOccluder,
  BoxOccluder,
  CylinderOccluder,
  Occluder,
  SheetOccluder,
  ShellOccluder,
} from './occluder.ts';

/*
 * How much of a thin beam from a point to a cell of a light an occluder takes, 0..1. Edges are softened by the width
 * that the cell has at the occluder, so that a few cells give an even penumbra. Twin: `coverageGlsl.ts`.
 */

const ENDS = 1e-4;
const NARROWEST_M = 1e-5;

export function coverage(occluder: Occluder, pointM: Vec3, targetM: Vec3, cellM: number): number {
  switch (occluder.kind) {
    case 'sheet':
      return sheetCoverage(occluder, pointM, targetM, cellM);
    case 'cylinder':
      return cylinderCoverage(occluder, pointM, targetM, cellM);
    case 'box':
      return boxCoverage(occluder, pointM, targetM, cellM);
    case 'shell':
      return shellCoverage(occluder, pointM, targetM, cellM);
    case 'aperture':
      return apertureCoverage(occluder, pointM, targetM, cellM);
  }
}

function sheetCoverage({ originM, edgeUM, edgeVM }: SheetOccluder, p: Vec3, s: Vec3, cellM: number): number {
  const normal = cross(edgeUM, edgeVM);
  const d = sub(s, p);
  const along = dot(normal, d);
  if (Math.abs(along) < 1e-12) return 0;
  const t = dot(normal, sub(originM, p)) / along;
  if (t < ENDS || t > 1 - ENDS) return 0;
  const x = sub([p[0] + d[0] * t, p[1] + d[1] * t, p[2] + d[2] * t], originM);
  const width = length(edgeUM);
  const height = length(edgeVM);
  const a = dot(x, edgeUM) / width;
  const b = dot(x, edgeVM) / height;
  // On a sheet seen at a slant a beam is longer: |e - n (e.r) / (n.r)| for an edge e, the normal n and a ray r.
  const soft = (edge: Vec3, edgeM: number): number => {
    const slant = (dot(edge, d) * length(normal)) / (edgeM * along);
    return Math.max(cellM * t, NARROWEST_M) * Math.hypot(1, slant);
  };
  return (
    clamp01(0.5 + Math.min(a, width - a) / soft(edgeUM, width)) *
    clamp01(0.5 + Math.min(b, height - b) / soft(edgeVM, height))
  );
}

function cylinderCoverage(occluder: CylinderOccluder, p: Vec3, s: Vec3, cellM: number): number {
  const { footM, radiusM, heightM, lean = [0, 0] } = occluder;
  const px = p[0] - footM[0] - lean[0] * (p[1] - footM[1]);
  const pz = p[2] - footM[2] - lean[1] * (p[1] - footM[1]);
  const dx = s[0] - p[0] - lean[0] * (s[1] - p[1]);
  const dz = s[2] - p[2] - lean[1] * (s[1] - p[1]);
  const a = Math.max(dx * dx + dz * dz, 1e-12);
  const closest = Math.min(1, Math.max(0, -(px * dx + pz * dz) / a));
  const miss = Math.hypot(px + dx * closest, pz + dz * closest);
  const soft = Math.max(cellM * closest, NARROWEST_M);
  const across = clamp01(0.5 + (radiusM - miss) / soft);
  if (across === 0) return 0;
  const half = Math.sqrt(Math.max(radiusM * radiusM - miss * miss, 0) / a);
  const yIn = p[1] + (s[1] - p[1]) * Math.max(0, closest - half);
  const yOut = p[1] + (s[1] - p[1]) * Math.min(1, closest + half);
  const gap = Math.max(Math.min(yIn, yOut) - (footM[1] + heightM), footM[1] - Math.max(yIn, yOut));
  return across * clamp01(0.5 - gap / soft);
}

function boxCoverage({ centreM, halfM, across }: BoxOccluder, p: Vec3, s: Vec3, cellM: number): number {
  const local = (v: Vec3): Vec3 => [v[0] * across[0] + v[2] * across[2], v[1], -v[0] * across[2] + v[2] * across[0]];
  const o = local(sub(p, centreM));
  const d = local(sub(s, p));
  let enter = ENDS;
  let leave = 1 - ENDS;
  for (const k of [0, 1, 2] as const) {
    const inverse = 1 / (Math.abs(d[k]) < 1e-9 ? 1e-9 : d[k]);
    const t0 = (-halfM[k] - o[k]) * inverse;
    const t1 = (halfM[k] - o[k]) * inverse;
    enter = Math.max(enter, Math.min(t0, t1));
    leave = Math.min(leave, Math.max(t0, t1));
  }
  const soft = Math.max(cellM * Math.max(enter, 0), NARROWEST_M);
  // The chord through an edge is about twice as long as its distance from the edge.
  return clamp01(((leave - enter) * length(d)) / (2 * soft));
}

function shellCoverage(shell: ShellOccluder, p: Vec3, s: Vec3, cellM: number): number {
  const { footM, radiusM, heightM, closedTop, closedBottom } = shell;
  const [px, pz] = [p[0] - footM[0], p[2] - footM[2]];
  const [dx, dz] = [s[0] - p[0], s[2] - p[2]];
  const [y0, dy] = [p[1] - footM[1], s[1] - p[1]];
  const a = Math.max(dx * dx + dz * dz, 1e-12);
  const b = px * dx + pz * dz;
  const disc = b * b - a * (px * px + pz * pz - radiusM * radiusM);
  if (disc <= 0) return 0;
  const root = Math.sqrt(disc);
  let taken = 0;
  for (const t of [(-b - root) / a, (-b + root) / a]) {
    if (t < ENDS || t > 1 - ENDS) continue;
    const y = y0 + dy * t;
    taken = Math.max(taken, clamp01(0.5 + Math.min(y, heightM - y) / Math.max(cellM * t, NARROWEST_M)));
  }
  for (const [closed, y] of [
    [closedTop, heightM],
    [closedBottom, 0],
  ] as const) {
    const t = (y - y0) / (Math.abs(dy) < 1e-9 ? 1e-9 : dy);
    if (closed && t > ENDS && t < 1 - ENDS && Math.hypot(px + dx * t, pz + dz * t) < radiusM) taken = 1;
  }
  return taken;
}

/** All but what comes through the opening; nothing reaches what lies behind its plane. */
function apertureCoverage({ centreM, normal, radiusM }: ApertureOccluder, p: Vec3, s: Vec3, cellM: number): number {
  const before = dot(sub(p, centreM), normal);
  if (before <= 0) return 1;
  const t = before / Math.max(before - dot(sub(s, centreM), normal), 1e-9);
  const x = sub([p[0] + (s[0] - p[0]) * t, p[1] + (s[1] - p[1]) * t, p[2] + (s[2] - p[2]) * t], centreM);
  return clamp01(0.5 + (length(x) - radiusM) / Math.max(cellM * t, NARROWEST_M));
}

const clamp01 = (v: number): number => Math.min(1, Math.max(0, v));
