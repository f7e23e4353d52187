import { compose, fromHeading, type RigidTransform, translation } from '../core/rigid.ts';
import { radFromDeg } from '../core/units.ts';
import type { Finish } from '../materials/finish.ts';
import { type Built, builtOf, leftOut } from './built.ts';
import { BOARD_LIFT_M } from './clearances.ts';
import { discProfile } from './pieces/plinthCylinder.ts';
import { cannotMake } from './problems.ts';
import { shapeFromPiece } from './profile/index.ts';
import type { Piece, Turntable } from './records.ts';

export const TURNTABLE_ID = 'turntable';

/** Matte black top. Invented, near black flock. */
const TOP: Finish = { type: 'matte', reflectanceRgb: [0.03, 0.03, 0.03] };

/** Round black disc, top at centreM; its underside stays BOARD_LIFT_M over whatever lies thicknessM lower. */
export function buildTurntable(turntable: Turntable): Built {
  const heightM = turntable.thicknessM - BOARD_LIFT_M;
  if (heightM <= 0) {
    return leftOut([
      cannotMake(
        TURNTABLE_ID,
        'turntable-too-thin',
        'turntable.thicknessM',
        turntable.thicknessM,
        'turntable.thicknessM is too thin: use 1 mm or more.',
      ),
    ]);
  }
  const [x, y, z] = turntable.centreM;
  const worldFromLocal = translation([x, y - heightM, z]);
  const edgeRadiusM = Math.min(0.001, heightM / 4, turntable.diameterM / 8);
  return builtOf(
    discProfile(turntable.diameterM / 2, heightM, edgeRadiusM).map((p) => ({
      recordId: TURNTABLE_ID,
      role: p.role,
      shape: shapeFromPiece(p.piece),
      worldFromLocal,
      finish: TOP,
    })),
  );
}

/** Where a piece stands: its own place and heading, carried round by the turntable when that carries it. */
export function placePiece(piece: Piece, turntable: Turntable | undefined, turntableAngleDeg: number): RigidTransform {
  const own = fromHeading(piece.positionM, radFromDeg(piece.headingDeg));
  if (!turntable?.carries.includes(piece.id)) return own;
  const [cx, cy, cz] = turntable.centreM;
  // Off the axis toward +x at rest, then turned (counter-clockwise from above) about it.
  const fromAxis = compose(translation([turntable.runOutM - cx, -cy, -cz]), own);
  return compose(fromHeading([cx, cy, cz], radFromDeg(turntableAngleDeg)), fromAxis);
}
