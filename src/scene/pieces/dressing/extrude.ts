import { compose, type RigidTransform, translation } from '../../../core/rigid.ts';
import type { Vec3 } from '../../../core/vec3.ts';
import type { ProfilePiece, ProfilePoint } from '../../profile/index.ts';
import { createFaceMesh } from './faceMesh.ts';
import { quadSide, type Side } from './side.ts';

/**
 * A closed bar: a closed cross-section drawn out along local +y from 0 to `lengthM`, faces outward. The cross-section is
 * walked counter-clockwise with its r along local x and its y along local z; arcs must bulge outward and `middle` must see
 * every corner. Straight pieces become rectangles, arcs exact parts of cylinders; ends are flat.
 */
export function extrudeSides(
  name: string,
  section: readonly ProfilePiece[],
  middle: ProfilePoint,
  lengthM: number,
  placement: RigidTransform,
): Side[] {
  const sides: Side[] = [];
  const ends = createFaceMesh();
  const at = (p: ProfilePoint, y: number): Vec3 => [p.rM, y, p.yM];
  const endTriangle = (a: ProfilePoint, b: ProfilePoint): void => {
    ends.polygon([at(middle, 0), at(a, 0), at(b, 0)]);
    ends.polygon([at(middle, lengthM), at(b, lengthM), at(a, lengthM)]);
  };
  for (const piece of section) {
    if (piece.type === 'line') {
      const along: Vec3 = [piece.to.rM - piece.from.rM, 0, piece.to.yM - piece.from.yM];
      sides.push(quadSide(`${name} side`, at(piece.from, 0), [0, lengthM, 0], along, placement));
      endTriangle(piece.from, piece.to);
      continue;
    }
    const azimuth = { startRad: piece.angle0Rad, endRad: piece.angle1Rad };
    const r = piece.radiusM;
    const frame = compose(placement, translation(at(piece.centre, 0)));
    const turned = (role: string, r0M: number, y0M: number, r1M: number, y1M: number): Side => ({
      role,
      shape: { type: 'revolvedLine', r0M, y0M, r1M, y1M, azimuth },
      worldFromLocal: frame,
    });
    sides.push(
      turned(`${name} edge`, r, 0, r, lengthM),
      turned(`${name} end`, 0, 0, r, 0),
      turned(`${name} end`, r, lengthM, 0, lengthM),
    );
    endTriangle(piece.from, piece.centre);
    endTriangle(piece.centre, piece.to);
  }
  sides.push({ role: `${name} end`, shape: ends.build(), worldFromLocal: placement });
  return sides;
}
