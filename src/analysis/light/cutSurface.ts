import { applyToDirection, applyToPoint } from '../../core/rigid.ts';
import { addScaled, cross, length, normalize, type Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';

/** One piece of a surface. World, metres. */
export interface SurfacePatch {
  readonly pointM: Vec3;
  /** Front, unit. */
  readonly normal: Vec3;
  readonly areaM2: number;
  /** In order round it, counter-clockwise as seen from the front for flat ones. */
  readonly cornersM: readonly Vec3[];
}

/**
 * Cuts a surface into `countU` x `countV` patches with exact areas, row by row of u: along both edges of a quad, round
 * and along the profile of a turned one. Nothing for a mesh.
 */
export function cutSurface(surface: OpticalSurface, countU: number, countV: number): SurfacePatch[] {
  const { shape, worldFromLocal } = surface;
  switch (shape.type) {
    case 'quad': {
      const origin = applyToPoint(worldFromLocal, shape.originM);
      const edgeU = applyToDirection(worldFromLocal, shape.edgeUM);
      const edgeV = applyToDirection(worldFromLocal, shape.edgeVM);
      const normal = normalize(cross(edgeU, edgeV));
      const areaM2 = length(cross(edgeU, edgeV)) / (countU * countV);
      const at = (i: number, j: number): Vec3 => addScaled(addScaled(origin, edgeU, i / countU), edgeV, j / countV);
      return cells(countU, countV, (i, j) => ({
        pointM: at(i + 0.5, j + 0.5),
        normal,
        areaM2,
        cornersM: [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)],
      }));
    }
    case 'revolvedLine':
    case 'revolvedArc': {
      const startRad = shape.azimuth?.startRad ?? 0;
      const turnRad = (shape.azimuth ? shape.azimuth.endRad - startRad : 2 * Math.PI) / countU;
      const place = (i: number, j: number): Vec3 => {
        const [r, y] = profilePoint(shape, j / countV);
        const phi = startRad + i * turnRad;
        return applyToPoint(worldFromLocal, [r * Math.cos(phi), y, r * Math.sin(phi)]);
      };
      return cells(countU, countV, (i, j) => {
        const phi = startRad + (i + 0.5) * turnRad;
        const [nr, ny] = profileNormal(shape, (j + 0.5) / countV);
        return {
          pointM: place(i + 0.5, j + 0.5),
          normal: applyToDirection(worldFromLocal, [nr * Math.cos(phi), ny, nr * Math.sin(phi)]),
          areaM2: turnRad * sweptPerRad(shape, j / countV, (j + 1) / countV),
          cornersM: [place(i, j), place(i + 1, j), place(i + 1, j + 1), place(i, j + 1)],
        };
      });
    }
    case 'mesh':
      return [];
  }
}

type Revolved = Extract<OpticalSurface['shape'], { type: 'revolvedLine' | 'revolvedArc' }>;

function cells<T>(countU: number, countV: number, make: (i: number, j: number) => T): T[] {
  const made: T[] = [];
  for (let i = 0; i < countU; i++) for (let j = 0; j < countV; j++) made.push(make(i, j));
  return made;
}

/** Radius and height of the profile at a share of its length. */
function profilePoint(shape: Revolved, t: number): readonly [number, number] {
  if (shape.type === 'revolvedLine')
    return [shape.r0M + t * (shape.r1M - shape.r0M), shape.y0M + t * (shape.y1M - shape.y0M)];
  const a = shape.angle0Rad + t * (shape.angle1Rad - shape.angle0Rad);
  return [shape.centreRM + shape.radiusM * Math.cos(a), shape.centreYM + shape.radiusM * Math.sin(a)];
}

/** Front normal in the half-plane: on the right hand of the walk along the profile. */
function profileNormal(shape: Revolved, t: number): readonly [number, number] {
  if (shape.type === 'revolvedLine') {
    const [dr, dy] = [shape.r1M - shape.r0M, shape.y1M - shape.y0M];
    const size = Math.hypot(dr, dy);
    return [dy / size, -dr / size];
  }
  const a = shape.angle0Rad + t * (shape.angle1Rad - shape.angle0Rad);
  const sign = shape.angle1Rad > shape.angle0Rad ? 1 : -1;
  return [sign * Math.cos(a), sign * Math.sin(a)];
}

/** Area over the turn, m2 per radian: arc length x mean radius (Pappus). */
function sweptPerRad(shape: Revolved, from: number, to: number): number {
  if (shape.type === 'revolvedLine') {
    const [r0] = profilePoint(shape, from);
    const [r1] = profilePoint(shape, to);
    const whole = Math.hypot(shape.r1M - shape.r0M, shape.y1M - shape.y0M);
    return ((r0 + r1) / 2) * whole * (to - from);
  }
  const span = shape.angle1Rad - shape.angle0Rad;
  const [a0, a1] = [shape.angle0Rad + from * span, shape.angle0Rad + to * span];
  return Math.abs(shape.radiusM * (shape.centreRM * (a1 - a0) + shape.radiusM * (Math.sin(a1) - Math.sin(a0))));
}
