import { compose, fromAxes, type RigidTransform } from '../../core/rigid.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { type Built, builtOf } from '../built.ts';
import { PAPER_LIFT_M } from '../clearances.ts';
import type { Piece } from '../records.ts';

type Sweep = Extract<Piece, { kind: 'sweep' }>;

/**
 * Paper sweep: a floor, a cove that is part of a cylinder about a level axis, and the rise behind it. Single surfaces
 * whose front faces the subject; opaque finishes act on both sides. A sweep lower than its cove ends on the cove.
 */
export function buildSweep(piece: Sweep, placement: RigidTransform): Built {
  const { widthM, floorDepthM, coveRadiusM, heightM, finish } = piece;
  const half = widthM / 2;
  const surface = (role: string, shape: OpticalSurface['shape'], worldFromLocal: RigidTransform): OpticalSurface => ({
    recordId: piece.id,
    role,
    shape,
    worldFromLocal,
    finish,
  });
  const riseM = heightM - PAPER_LIFT_M;
  const coveAngle = riseM >= coveRadiusM ? Math.PI / 2 : Math.acos(Math.max(-1, 1 - riseM / coveRadiusM));
  // Local y of the cylinder runs along the set's x; azimuth 0 is toward the front (+z), 90 degrees is up.
  const axis = fromAxes([0, 0, 1], [1, 0, 0], [0, 1, 0], [0, PAPER_LIFT_M + coveRadiusM, -floorDepthM]);
  const surfaces = [
    surface(
      'floor',
      {
        type: 'quad',
        originM: [-half, PAPER_LIFT_M, 0],
        edgeUM: [widthM, 0, 0],
        edgeVM: [0, 0, -floorDepthM],
      },
      placement,
    ),
    surface(
      'cove',
      {
        type: 'revolvedLine',
        r0M: coveRadiusM,
        y0M: half,
        r1M: coveRadiusM,
        y1M: -half,
        azimuth: { startRad: -Math.PI / 2 - coveAngle, endRad: -Math.PI / 2 },
      },
      compose(placement, axis),
    ),
  ];
  if (riseM > coveRadiusM) {
    surfaces.push(
      surface(
        'rise',
        {
          type: 'quad',
          originM: [-half, PAPER_LIFT_M + coveRadiusM, -floorDepthM - coveRadiusM],
          edgeUM: [widthM, 0, 0],
          edgeVM: [0, riseM - coveRadiusM, 0],
        },
        placement,
      ),
    );
  }
  return builtOf(surfaces);
}
