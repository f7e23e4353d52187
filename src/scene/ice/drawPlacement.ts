import { applyToDirection, type RigidTransform } from '../../core/rigid.ts';
import { radFromDeg } from '../../core/units.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { IceForm } from '../records.ts';
import type { IceRoom } from './iceRoom.ts';
import type { RoundedBox } from './roundedBoxGap.ts';

export const BOX_CORNERS: readonly Vec3[] = [-1, 1].flatMap((x) =>
  [-1, 1].flatMap((y) => [-1, 1].map((z): Vec3 => [x, y, z])),
);

/** Which local axis (0 x, 1 y, 2 z) stands up, before heading and tilt. */
const STANDING: readonly RigidTransform['rotation'][] = [
  [0, -1, 0, 1, 0, 0, 0, 0, 1],
  [1, 0, 0, 0, 1, 0, 0, 0, 1],
  [1, 0, 0, 0, 0, 1, 0, -1, 0],
];

/**
 * A piece somewhere over the floor at height 0, turned anyhow about the vertical, tilted a little; broken ice lies any
 * way, spears stand. Half of the pieces stand as far out as the room goes, where others leave space for them.
 */
export function drawPlacement(random: () => number, form: IceForm, box: RoundedBox, room: IceRoom): RigidTransform {
  const where = 2 * Math.PI * random();
  const heading = 2 * Math.PI * random();
  // Sum of three is bell-shaped: mostly within 8 degrees, one piece in six leans up to 28.
  const bell = (random() + random() + random()) / 1.5 - 1;
  const tilt = bell * radFromDeg(mostTiltDeg(form, random));
  const turned = turnThenTilt(heading, tilt, 2 * Math.PI * random());
  const rotation = form === 'cube' || form === 'spear' ? turned : multiply(turned, standing(form, random));
  const mostRM = farthestOutM(rotation, Math.cos(where), Math.sin(where), box, room);
  const share = random() < 0.5 ? 1 - 0.15 * random() : Math.sqrt(random());
  return { rotation, translationM: [mostRM * share * Math.cos(where), 0, mostRM * share * Math.sin(where)] };
}

function mostTiltDeg(form: IceForm, random: () => number): number {
  const leans = random() < 1 / 6;
  switch (form) {
    case 'spear':
      return 5;
    case 'cracked':
      return leans ? 60 : 30;
    case 'crushed':
      return 90;
    default:
      return leans ? 28 : 8;
  }
}

/** A block floats on its side twice as often as on its end. */
function standing(form: IceForm, random: () => number): RigidTransform['rotation'] {
  const pick = Math.floor(3 * random());
  return STANDING[form === 'sphere' ? 1 : Math.min(2, pick)];
}

/** Farthest that a piece can stand from the axis in direction (x, z) with all corners within the widest of the room. */
function farthestOutM(
  rotation: RigidTransform['rotation'],
  x: number,
  z: number,
  { coreHalfM: c }: RoundedBox,
  room: IceRoom,
): number {
  let most = room.widestRM;
  for (const corner of BOX_CORNERS) {
    const dx = rotation[0] * corner[0] * c[0] + rotation[1] * corner[1] * c[1] + rotation[2] * corner[2] * c[2];
    const dz = rotation[6] * corner[0] * c[0] + rotation[7] * corner[1] * c[1] + rotation[8] * corner[2] * c[2];
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

function multiply(a: RigidTransform['rotation'], b: RigidTransform['rotation']): RigidTransform['rotation'] {
  const at = (i: number, j: number): number => a[3 * i] * b[j] + a[3 * i + 1] * b[3 + j] + a[3 * i + 2] * b[6 + j];
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)];
}
