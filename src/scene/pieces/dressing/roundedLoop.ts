import { compose, fromAxes, type RigidTransform, translation } from '../../../core/rigid.ts';
import type { AzimuthRange, RevolvedLineShape } from '../../../core/shape.ts';
import { type ProfilePiece, shapeFromPiece } from '../../profile/index.ts';
import { quadSide, type Side } from './side.ts';

export interface LoopPart {
  readonly role: string;
  readonly piece: ProfilePiece;
}

/** Half sizes of the rectangle whose edge is r = 0 of the profile; 0 x 0 for a turned body. */
export interface LoopCore {
  readonly halfXM: number;
  readonly halfZM: number;
}

const TURNED_ROUND: readonly RigidTransform[] = [
  fromAxes([1, 0, 0], [0, 1, 0], [0, 0, 1], [0, 0, 0]),
  fromAxes([0, 0, 1], [0, 1, 0], [-1, 0, 0], [0, 0, 0]),
  fromAxes([-1, 0, 0], [0, 1, 0], [0, 0, -1], [0, 0, 0]),
  fromAxes([0, 0, -1], [0, 1, 0], [1, 0, 0], [0, 0, 0]),
];
const CORNERS = [
  [1, 1, 0],
  [-1, 1, Math.PI / 2],
  [-1, -1, -Math.PI],
  [1, -1, -Math.PI / 2],
] as const;

/**
 * A profile led round a rectangle: straight along its sides, turned a quarter about each corner. All exact: rectangles and
 * parts of cylinders along the sides, parts of cones, discs and tori at the corners. Profile ends at r = 0 are closed by
 * the rectangle itself. The front is on the right hand of the walk, as for turned bodies.
 */
export function roundedLoopSides(parts: readonly LoopPart[], core: LoopCore, placement: RigidTransform): Side[] {
  if (core.halfXM <= 0 && core.halfZM <= 0) {
    return parts.map(({ role, piece }) => ({ role, shape: shapeFromPiece(piece), worldFromLocal: placement }));
  }
  return [
    ...parts.flatMap((part) => [...cornerSides(part, core, placement), ...straightSides(part, core, placement)]),
    ...coreSides(parts, core, placement),
  ];
}

function cornerSides({ role, piece }: LoopPart, core: LoopCore, placement: RigidTransform): Side[] {
  return CORNERS.map(([x, z, startRad]) => ({
    role,
    shape: { ...shapeFromPiece(piece), azimuth: { startRad, endRad: startRad + Math.PI / 2 } },
    worldFromLocal: compose(placement, translation([x * core.halfXM, 0, z * core.halfZM])),
  }));
}

function straightSides({ role, piece }: LoopPart, core: LoopCore, placement: RigidTransform): Side[] {
  return TURNED_ROUND.flatMap((turn, k): Side[] => {
    const [outM, halfM] = k % 2 === 0 ? [core.halfXM, core.halfZM] : [core.halfZM, core.halfXM];
    if (halfM <= 0) return [];
    const frame = compose(placement, turn);
    if (piece.type === 'line') {
      const { from, to } = piece;
      return [
        quadSide(
          role,
          [outM + from.rM, from.yM, -halfM],
          [to.rM - from.rM, to.yM - from.yM, 0],
          [0, 0, 2 * halfM],
          frame,
        ),
      ];
    }
    // A cylinder along local z: its azimuth is the angle of the profile's arc.
    const axis = fromAxes([1, 0, 0], [0, 0, -1], [0, 1, 0], [outM + piece.centre.rM, piece.centre.yM, 0]);
    return [{ role, shape: cylinderOfArc(piece, halfM), worldFromLocal: compose(frame, axis) }];
  });
}

function cylinderOfArc(arc: Extract<ProfilePiece, { type: 'arc' }>, halfM: number): RevolvedLineShape {
  const outward = arc.angle1Rad >= arc.angle0Rad;
  const azimuth: AzimuthRange = outward
    ? { startRad: arc.angle0Rad, endRad: arc.angle1Rad }
    : { startRad: arc.angle1Rad, endRad: arc.angle0Rad };
  const end = outward ? halfM : -halfM;
  return { type: 'revolvedLine', r0M: arc.radiusM, y0M: -end, r1M: arc.radiusM, y1M: end, azimuth };
}

function coreSides(parts: readonly LoopPart[], { halfXM, halfZM }: LoopCore, placement: RigidTransform): Side[] {
  const first = parts[0];
  const last = parts[parts.length - 1];
  const sides: Side[] = [];
  if (halfXM <= 0 || halfZM <= 0) return sides;
  if (first.piece.from.rM === 0) {
    const y = first.piece.from.yM;
    sides.push(quadSide(first.role, [-halfXM, y, -halfZM], [2 * halfXM, 0, 0], [0, 0, 2 * halfZM], placement));
  }
  if (last.piece.to.rM === 0) {
    const y = last.piece.to.yM;
    sides.push(quadSide(last.role, [-halfXM, y, halfZM], [2 * halfXM, 0, 0], [0, 0, -2 * halfZM], placement));
  }
  return sides;
}
