import type { Camera } from '../../camera/records.ts';
import { fromAim, type RigidTransform } from '../../core/rigid.ts';
import type { Shape } from '../../core/shape.ts';
import type { Vec3 } from '../../core/vec3.ts';

/** A stand-in body behind the lens: its outside is nominal, the front element is the record's own. */
const BODY_WIDTH_M = 0.14;
const BODY_HEIGHT_M = 0.1;
const BODY_DEPTH_M = 0.075;
const LENS_LENGTH_M = 0.1;
/** Mount and barrel stand round the front element by this factor. */
const BARREL_OVER_FRONT = 1.25;

export interface CameraPart {
  readonly role: 'body' | 'lens';
  /** In the camera's frame: the entrance pupil at the origin, +z looking forward, +y up. */
  readonly shape: Shape;
  readonly worldFromLocal: RigidTransform;
}

/** What the camera looks like from outside, for the stage and the drawing. The tracer does not see it; a matte box
 * is part of the set itself. */
export function cameraParts(camera: Camera): CameraPart[] {
  const worldFromCamera = fromAim(camera.positionM, camera.aimM, camera.rollDeg * (Math.PI / 180));
  const parts: CameraPart[] = boxFaces(
    [0, 0, -LENS_LENGTH_M - BODY_DEPTH_M / 2],
    [BODY_WIDTH_M / 2, BODY_HEIGHT_M / 2, BODY_DEPTH_M / 2],
  ).map((shape) => ({ role: 'body', shape, worldFromLocal: worldFromCamera }));
  const r = (camera.frontElementDiameterM * BARREL_OVER_FRONT) / 2;
  // The barrel turns about the lens axis: local +y of the turned shape lies along the camera's +z.
  const worldFromBarrel = axisAlongZ(worldFromCamera);
  const barrel: Shape[] = [
    { type: 'revolvedLine', r0M: r * 0.86, y0M: -LENS_LENGTH_M, r1M: r, y1M: -LENS_LENGTH_M * 0.45 },
    { type: 'revolvedLine', r0M: r, y0M: -LENS_LENGTH_M * 0.45, r1M: r, y1M: 0 },
    {
      type: 'revolvedLine',
      r0M: r,
      y0M: 0,
      r1M: camera.frontElementDiameterM / 2,
      y1M: -0.003,
    },
    { type: 'revolvedLine', r0M: camera.frontElementDiameterM / 2, y0M: -0.003, r1M: 0, y1M: -0.001 },
  ];
  for (const shape of barrel) parts.push({ role: 'lens', shape, worldFromLocal: worldFromBarrel });
  return parts;
}

/** Turns a frame so that what stood along +y looks along the old +z (old +y becomes -z). */
function axisAlongZ(t: RigidTransform): RigidTransform {
  const [xx, yx, zx, xy, yy, zy, xz, yz, zz] = t.rotation;
  return { rotation: [xx, zx, -yx, xy, zy, -yy, xz, zz, -yz], translationM: t.translationM };
}

/** Six outward faces of a box: +z, -z, then +x, -x, +y, -y. */
export function boxFaces(centreM: Vec3, half: Vec3): Shape[] {
  const [cx, cy, cz] = centreM;
  const [x, y, z] = half;
  const quad = (originM: Vec3, edgeUM: Vec3, edgeVM: Vec3): Shape => ({
    type: 'quad',
    originM: [cx + originM[0], cy + originM[1], cz + originM[2]],
    edgeUM,
    edgeVM,
  });
  return [
    quad([-x, -y, z], [2 * x, 0, 0], [0, 2 * y, 0]),
    quad([x, -y, -z], [-2 * x, 0, 0], [0, 2 * y, 0]),
    quad([x, -y, z], [0, 0, -2 * z], [0, 2 * y, 0]),
    quad([-x, -y, -z], [0, 0, 2 * z], [0, 2 * y, 0]),
    quad([-x, y, z], [2 * x, 0, 0], [0, 0, -2 * z]),
    quad([-x, -y, -z], [2 * x, 0, 0], [0, 0, 2 * z]),
  ];
}
