import { applyToPoint, inversePoint, type RigidTransform, translation } from '../core/rigid.ts';
import type { Vec3 } from '../core/vec3.ts';
import { GLASS_LIFT_M } from './clearances.ts';
import { type Room, roomsOfDressing } from './dressingRooms.ts';
import { buildGlassBody } from './glassware/buildGlassBody.ts';
import { piecesOf } from './glassware/glassBody.ts';
import { boxOf } from './pieces/box.ts';
import { type ProfilePiece, pointAlong, radiiAtHeightM } from './profile/index.ts';
import { isDressing, type Piece, type Turntable } from './records.ts';
import { TURNTABLE_ID } from './turntable.ts';

/** The room that a piece takes up, for asking what stands inside what. A vessel counts with its inside. */
export interface Solid {
  readonly recordId: string;
  readonly name: string;
  /** True when the point lies deeper than `slackM` under the surface. */
  contains(pointM: Vec3, slackM: number): boolean;
  /** Points spread over the surface, corners first. */
  readonly probesM: readonly Vec3[];
}

/** The solid of a piece where it stands; undefined for paper and for what can't be made. */
export function solidOfPiece(piece: Piece, placement: RigidTransform): Solid | undefined {
  if (isDressing(piece)) return roomsSolid(piece, placement, roomsOfDressing(piece));
  switch (piece.kind) {
    case 'glass': {
      const body = buildGlassBody(piece.id, piece.profile);
      if (!body.ok) return undefined;
      return roundSolid(piece, placement, piecesOf(body.value.outside), [
        GLASS_LIFT_M,
        body.value.rimYM + GLASS_LIFT_M,
      ]);
    }
    case 'plinthCylinder':
      return drumSolid(piece, placement, piece.diameterM / 2, 0, piece.heightM);
    case 'tabletop':
    case 'sheet':
    case 'plinthBox':
    case 'wall': {
      const box = boxOf(piece);
      return boxSolid(
        piece,
        placement,
        [-box.widthM / 2, box.underYM, box.centreZM - box.depthM / 2],
        [box.widthM / 2, box.topYM, box.centreZM + box.depthM / 2],
      );
    }
    case 'sweep':
      return undefined;
  }
}

export const solidOfTurntable = (turntable: Turntable): Solid =>
  drumSolid(
    { id: TURNTABLE_ID, name: 'Turntable' },
    translation(turntable.centreM),
    turntable.diameterM / 2,
    -turntable.thicknessM,
    0,
  );

interface Named {
  readonly id: string;
  readonly name: string;
}

function boxSolid(record: Named, placement: RigidTransform, min: Vec3, max: Vec3): Solid {
  const probes: Vec3[] = [];
  const steps = [0, 1, 0.5];
  for (const i of steps) {
    for (const j of steps) {
      for (const k of steps) {
        if (i === 0.5 && j === 0.5 && k === 0.5) continue;
        const at = (axis: 0 | 1 | 2, t: number): number => min[axis] + (max[axis] - min[axis]) * t;
        probes.push(applyToPoint(placement, [at(0, i), at(1, j), at(2, k)]));
      }
    }
  }
  return {
    recordId: record.id,
    name: record.name,
    contains(pointM, slackM) {
      const p = inversePoint(placement, pointM);
      return p.every((v, axis) => v > min[axis] + slackM && v < max[axis] - slackM);
    },
    probesM: probes,
  };
}

/** Several boxes of one piece as one solid; undefined when there is none. */
function roomsSolid(record: Named, placement: RigidTransform, rooms: readonly Room[]): Solid | undefined {
  if (rooms.length === 0) return undefined;
  const boxes = rooms.map(({ minM, maxM }) => boxSolid(record, placement, minM, maxM));
  return {
    recordId: record.id,
    name: record.name,
    contains: (pointM, slackM) => boxes.some((box) => box.contains(pointM, slackM)),
    probesM: boxes.flatMap((box) => box.probesM),
  };
}

const RING_SIDES = 16;

function ringProbes(placement: RigidTransform, rings: readonly (readonly [rM: number, yM: number])[]): Vec3[] {
  return rings.flatMap(([rM, yM]) =>
    Array.from({ length: RING_SIDES }, (_, i) => {
      const phi = (2 * Math.PI * i) / RING_SIDES;
      return applyToPoint(placement, [rM * Math.cos(phi), yM, rM * Math.sin(phi)]);
    }),
  );
}

function drumSolid(record: Named, placement: RigidTransform, radiusM: number, loYM: number, hiYM: number): Solid {
  return {
    recordId: record.id,
    name: record.name,
    contains(pointM, slackM) {
      const [x, y, z] = inversePoint(placement, pointM);
      return y > loYM + slackM && y < hiYM - slackM && Math.hypot(x, z) < radiusM - slackM;
    },
    probesM: ringProbes(placement, [
      [radiusM, loYM],
      [radiusM, hiYM],
      [radiusM, (loYM + hiYM) / 2],
    ]),
  };
}

function roundSolid(
  record: Named,
  placement: RigidTransform,
  outside: readonly ProfilePiece[],
  [loYM, hiYM]: readonly [number, number],
): Solid {
  return {
    recordId: record.id,
    name: record.name,
    contains(pointM, slackM) {
      const [x, y, z] = inversePoint(placement, pointM);
      if (y <= loYM + slackM || y >= hiYM - slackM) return false;
      const radii = radiiAtHeightM(outside, y - GLASS_LIFT_M);
      return Math.hypot(x, z) < Math.max(0, ...radii) - slackM;
    },
    probesM: ringProbes(
      placement,
      outside.flatMap((piece) =>
        [0, 0.5].map((t) => {
          const p = pointAlong(piece, t);
          return [p.rM, p.yM + GLASS_LIFT_M] as const;
        }),
      ),
    ),
  };
}
