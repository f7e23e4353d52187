import { compose, fromAxes, type RigidTransform } from '../core/rigid.ts';
import type { Shape } from '../core/shape.ts';
import type { Vec3 } from '../core/vec3.ts';

export interface BoxPart {
  readonly role: string;
  readonly shape: Shape;
  readonly worldFromLocal: RigidTransform;
}

const AXES: readonly [Vec3, Vec3, Vec3] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const FACE_NAMES = [
  ['left side', 'right side'],
  ['underside', 'top'],
  ['back', 'front'],
] as const;

/**
 * A closed box with outward faces, centred on the origin of `placement`: six rectangles, and where `radiusM` is over 0
 * twelve quarter cylinders and eight eighths of a sphere, all exact. `radiusM` is at most the least half size.
 */
export function buildRoundedBox(halfM: Vec3, radiusM: number, placement: RigidTransform): BoxPart[] {
  const core: Vec3 = [halfM[0] - radiusM, halfM[1] - radiusM, halfM[2] - radiusM];
  const parts = buildFaces(halfM, core, placement);
  if (radiusM > 0) parts.push(...buildEdges(core, radiusM, placement), ...buildCorners(core, radiusM, placement));
  return parts;
}

function buildFaces(halfM: Vec3, core: Vec3, placement: RigidTransform): BoxPart[] {
  const parts: BoxPart[] = [];
  for (const k of [0, 1, 2] as const) {
    const u = next(k);
    const v = next(u);
    if (core[u] <= 0 || core[v] <= 0) continue;
    for (const side of [-1, 1] as const) {
      const origin = [0, 0, 0];
      origin[k] = side * halfM[k];
      origin[u] = -core[u];
      origin[v] = -core[v];
      const alongU = stretch(u, 2 * core[u]);
      const alongV = stretch(v, 2 * core[v]);
      parts.push({
        role: FACE_NAMES[k][side > 0 ? 1 : 0],
        shape: {
          type: 'quad',
          originM: [origin[0], origin[1], origin[2]],
          edgeUM: side > 0 ? alongU : alongV,
          edgeVM: side > 0 ? alongV : alongU,
        },
        worldFromLocal: placement,
      });
    }
  }
  return parts;
}

function buildEdges(core: Vec3, radiusM: number, placement: RigidTransform): BoxPart[] {
  const parts: BoxPart[] = [];
  for (const k of [0, 1, 2] as const) {
    if (core[k] <= 0) continue;
    // Turned about axis k: local y is axis k, and the two others follow in right-handed order.
    const z = next(k);
    const x = next(z);
    for (const [sideX, sideZ] of QUADRANTS) {
      const centre = [0, 0, 0];
      centre[x] = sideX * core[x];
      centre[z] = sideZ * core[z];
      const local = fromAxes(AXES[x], AXES[k], AXES[z], [centre[0], centre[1], centre[2]]);
      parts.push({
        role: 'edge',
        shape: {
          type: 'revolvedLine',
          r0M: radiusM,
          y0M: -core[k],
          r1M: radiusM,
          y1M: core[k],
          azimuth: quadrantAzimuth(sideX, sideZ),
        },
        worldFromLocal: compose(placement, local),
      });
    }
  }
  return parts;
}

function buildCorners(core: Vec3, radiusM: number, placement: RigidTransform): BoxPart[] {
  const parts: BoxPart[] = [];
  for (const sideY of [-1, 1] as const) {
    for (const [sideX, sideZ] of QUADRANTS) {
      parts.push({
        role: 'corner',
        shape: {
          type: 'revolvedArc',
          centreRM: 0,
          centreYM: 0,
          radiusM,
          angle0Rad: sideY > 0 ? 0 : -Math.PI / 2,
          angle1Rad: sideY > 0 ? Math.PI / 2 : 0,
          azimuth: quadrantAzimuth(sideX, sideZ),
        },
        worldFromLocal: compose(placement, fromAxes(...AXES, [sideX * core[0], sideY * core[1], sideZ * core[2]])),
      });
    }
  }
  return parts;
}

type AxisIndex = 0 | 1 | 2;
type Side = -1 | 1;
const next = (k: AxisIndex): AxisIndex => (k === 0 ? 1 : k === 1 ? 2 : 0);
const stretch = (k: AxisIndex, lengthM: number): Vec3 => [
  k === 0 ? lengthM : 0,
  k === 1 ? lengthM : 0,
  k === 2 ? lengthM : 0,
];
const QUADRANTS: readonly (readonly [Side, Side])[] = [
  [1, 1],
  [-1, 1],
  [-1, -1],
  [1, -1],
];

/** The quarter turn about local +y that looks toward (sideX, sideZ). */
function quadrantAzimuth(sideX: Side, sideZ: Side): { startRad: number; endRad: number } {
  const startRad = sideZ > 0 ? (sideX > 0 ? 0 : Math.PI / 2) : sideX > 0 ? -Math.PI / 2 : -Math.PI;
  return { startRad, endRad: startRad + Math.PI / 2 };
}
