import { applyToDirection, type RigidTransform } from '../../core/rigid.ts';
import { radFromDeg } from '../../core/units.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { CubeSize } from './cubeGap.ts';
import type { IceRoom } from './iceRoom.ts';

export const CUBE_CORNERS: readonly Vec3[] = [-1, 1].flatMap((x) =>
  [-1, 1].flatMap((y) => [-1, 1].map((z): Vec3 => [x, y, z])),
);

/**
 * A cube somewhere over the floor at height 0, turned anyhow about the vertical, tilted a little. Half of them stand as
 * far out as the room goes, where others leave space for them.
 */
export function drawCube(random: () => number, size: CubeSize, room: IceRoom): RigidTransform {
  const where = 2 * Math.PI * random();
  const heading = 2 * Math.PI * random();
  // Sum of three is bell-shaped: mostly within 8 degrees, one cube in six leans up to 28.
  const bell = (random() + random() + random()) / 1.5 - 1;
  const tilt = bell * radFromDeg(random() < 1 / 6 ? 28 : 8);
  const rotation = turnThenTilt(heading, tilt, 2 * Math.PI * random());
  const mostRM = farthestOutM(rotation, Math.cos(where), Math.sin(where), size, room);
  const share = random() < 0.5 ? 1 - 0.15 * random() : Math.sqrt(random());
  return { rotation, translationM: [mostRM * share * Math.cos(where), 0, mostRM * share * Math.sin(where)] };
}

/** Farthest that a cube can stand from the axis in direction (x, z) with all corners within the widest of the room. */
function farthestOutM(
  rotation: RigidTransform['rotation'],
  x: number,
  z: number,
  size: CubeSize,
  room: IceRoom,
): number {
  let most = room.widestRM;
  for (const corner of CUBE_CORNERS) {
    const dx = (rotation[0] * corner[0] + rotation[1] * corner[1] + rotation[2] * corner[2]) * size.coreHalfM;
    const dz = (rotation[6] * corner[0] + rotation[7] * corner[1] + rotation[8] * corner[2]) * size.coreHalfM;
    // |s (x, z) + (dx, dz)| = widest, solved for s.
    const along = dx * x + dz * z;
    const free = room.widestRM ** 2 - (dx * dx + dz * dz) + along * along;
    most = Math.min(most, free > 0 ? Math.sqrt(free) - along : 0);
  }
  return Math.max(0, most);
}

/** Row-major rotation: heading about y first, then tilt about the level axis (cos toward, 0, sin toward). */
function turnThenTilt(heading: number, tilt: number, toward: number): RigidTransform['rotation'] {
  const kx = Math.cos(toward);
  const kz = Math.sin(toward);
  const c = Math.cos(tilt);
  const s = Math.sin(tilt);
  const v = 1 - c;
  // Rodrigues' formula for the axis (kx, 0, kz).
  const t: RigidTransform = {
    rotation: [c + kx * kx * v, -kz * s, kx * kz * v, kz * s, c, -kx * s, kx * kz * v, kx * s, c + kz * kz * v],
    translationM: [0, 0, 0],
  };
  const ch = Math.cos(heading);
  const sh = Math.sin(heading);
  const x = applyToDirection(t, [ch, 0, -sh]);
  const y = applyToDirection(t, [0, 1, 0]);
  const z = applyToDirection(t, [sh, 0, ch]);
  return [x[0], y[0], z[0], x[1], y[1], z[1], x[2], y[2], z[2]];
}
