import type { Camera } from '../camera/records.ts';
import { fromAim } from '../core/rigid.ts';
import { radFromDeg } from '../core/units.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { OpticalSurface } from '../materials/surface.ts';

export const CAMERA_ID = 'camera';

/** The box begins this far in front of the lens, so that it never stands in the plane where camera rays start. */
const BEHIND_MOUTH_M = 0.0005;

/**
 * Black sheets round the lens axis, fronts toward the axis: four sides from the lens to the mouth, and flags that carry
 * the top and the sides on beyond it. The back is open, at the lens. Nothing here keeps the box out of the picture: sizes
 * that cut the field of view do cut it.
 */
export function buildMatteBox(camera: Camera): OpticalSurface[] {
  const box = camera.matteBox;
  if (!box) return [];
  // Local +z looks along the axis, +y is up, +x is camera-left.
  const worldFromLocal = fromAim(camera.positionM, camera.aimM, radFromDeg(camera.rollDeg));
  const x = box.innerWidthM / 2;
  const y = box.innerHeightM / 2;
  const sheet = (role: string, originM: Vec3, edgeUM: Vec3, edgeVM: Vec3): OpticalSurface => ({
    recordId: CAMERA_ID,
    role: `matte box ${role}`,
    shape: { type: 'quad', originM, edgeUM, edgeVM },
    worldFromLocal,
    finish: { type: 'black' },
  });
  const side = (name: 'top' | 'bottom' | 'left' | 'right', role: string, fromZM: number, toZM: number) => {
    const along: Vec3 = [0, 0, toZM - fromZM];
    if (name === 'top') return sheet(role, [-x, y, fromZM], [2 * x, 0, 0], along);
    if (name === 'bottom') return sheet(role, [-x, -y, fromZM], along, [2 * x, 0, 0]);
    if (name === 'left') return sheet(role, [x, -y, fromZM], along, [0, 2 * y, 0]);
    return sheet(role, [-x, -y, fromZM], [0, 2 * y, 0], along);
  };
  const mouth = box.depthM;
  const surfaces = (['top', 'bottom', 'left', 'right'] as const).map((name) => side(name, name, BEHIND_MOUTH_M, mouth));
  if (box.topFlagM > 0) surfaces.push(side('top', 'top flag', mouth, mouth + box.topFlagM));
  if (box.sideFlagsM > 0) {
    surfaces.push(side('left', 'left flag', mouth, mouth + box.sideFlagsM));
    surfaces.push(side('right', 'right flag', mouth, mouth + box.sideFlagsM));
  }
  return surfaces;
}
