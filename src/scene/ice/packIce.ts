import { applyToDirection, type RigidTransform } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { ICE_CLEARANCE_M } from '../clearances.ts';
import type { GlassBody } from '../glassware/glassBody.ts';
import type { Ice } from '../records.ts';
import { blockedHeights, type CubeSize } from './cubeGap.ts';
import { type IceRoom, measureIceRoom } from './iceRoom.ts';

/** Share of floating ice that stands over the water: 1 - 916.7/998.2 (densities of ice at 0 C and water at 20 C). */
export const FLOATING_SHARE_ABOVE = 1 - 916.7 / 998.2;
/** Ice piled over the rim may stand out by this share of its edge. Invented. */
const SHARE_OVER_RIM = 0.4;
const TRIES_PER_CUBE = 500;

/**
 * Places ice cubes in a vessel, foot at y = 0, each as a transform from a cube centred on the origin. Cubes float: they
 * fill from the surface down, the topmost standing out by the share that real ice does. When there is no room left under
 * them, further cubes lie on top, up to a little over the rim. Without a drink they pile from the floor. Most lie nearly
 * flat. All keep ICE_CLEARANCE_M from the glass and one another. The same seed gives the same ice; fewer come back than
 * asked when no more fit.
 */
export function packIce(body: GlassBody, ice: Ice, levelYM: number | undefined): RigidTransform[] {
  const random = createRandom(ice.seed);
  const size: CubeSize = { coreHalfM: Math.max(0, ice.edgeM / 2 - ice.bevelM), bevelM: ice.bevelM };
  const overYM = body.convexUpToYM < body.rimYM ? body.convexUpToYM : body.rimYM + SHARE_OVER_RIM * ice.edgeM;
  const room = measureIceRoom(body, ice.bevelM + ICE_CLEARANCE_M, overYM);
  const floatYM = levelYM === undefined ? Number.NEGATIVE_INFINITY : levelYM + (FLOATING_SHARE_ABOVE - 0.5) * ice.edgeM;
  const placed: RigidTransform[] = [];
  let underIsFull = levelYM === undefined;
  for (let n = 0; n < ice.count; n++) {
    let best: RigidTransform | undefined;
    for (const pass of underIsFull ? (['pile'] as const) : (['float', 'pile'] as const)) {
      for (let i = 0; i < TRIES_PER_CUBE; i++) {
        const candidate = settle(drawCube(random, room), placed, size, room, floatYM, pass);
        if (candidate && (!best || isBetter(candidate, best, pass))) best = candidate;
      }
      if (best) break;
      underIsFull = true;
    }
    if (!best) break;
    placed.push(best);
  }
  return placed;
}

const isBetter = (a: RigidTransform, b: RigidTransform, pass: 'float' | 'pile'): boolean =>
  pass === 'float' ? a.translationM[1] > b.translationM[1] : a.translationM[1] < b.translationM[1];

/** A cube somewhere over the floor at height 0, turned anyhow about the vertical, tilted a little. */
function drawCube(random: () => number, room: IceRoom): RigidTransform {
  const rM = room.widestRM * Math.sqrt(random());
  const where = 2 * Math.PI * random();
  const heading = 2 * Math.PI * random();
  // Sum of three is bell-shaped: mostly within 8 degrees, one cube in six leans up to 28.
  const bell = (random() + random() + random()) / 1.5 - 1;
  const tilt = bell * ((random() < 1 / 6 ? 28 : 8) * (Math.PI / 180));
  const tiltToward = 2 * Math.PI * random();
  return {
    rotation: turnThenTilt(heading, tilt, tiltToward),
    translationM: [rM * Math.cos(where), 0, rM * Math.sin(where)],
  };
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

const CORNERS: readonly Vec3[] = [-1, 1].flatMap((x) => [-1, 1].flatMap((y) => [-1, 1].map((z): Vec3 => [x, y, z])));

/** Raises a cube to float as high as it can, or drops it as low as it goes over the ones that float. */
function settle(
  cube: RigidTransform,
  placed: readonly RigidTransform[],
  size: CubeSize,
  room: IceRoom,
  floatYM: number,
  pass: 'float' | 'pile',
): RigidTransform | undefined {
  let loYM = Number.NEGATIVE_INFINITY;
  let hiYM = Number.POSITIVE_INFINITY;
  for (const corner of CORNERS) {
    const d = applyToDirection(cube, [
      corner[0] * size.coreHalfM,
      corner[1] * size.coreHalfM,
      corner[2] * size.coreHalfM,
    ]);
    const free = room.heightsAt(Math.hypot(cube.translationM[0] + d[0], cube.translationM[2] + d[2]));
    if (!free) return undefined;
    loYM = Math.max(loYM, free.loYM - d[1]);
    hiYM = Math.min(hiYM, free.hiYM - d[1]);
  }
  if (pass === 'float') hiYM = Math.min(hiYM, floatYM);
  else loYM = Math.max(loYM, floatYM);
  if (loYM > hiYM) return undefined;

  const blocked = placed
    .map((other) => blockedHeights(cube, other, size, ICE_CLEARANCE_M))
    .filter((interval) => interval !== undefined);
  let yM = pass === 'float' ? hiYM : loYM;
  if (pass === 'float') {
    blocked.sort((p, q) => q.hiM - p.hiM);
    for (const { loM, hiM } of blocked) if (yM > loM && yM < hiM) yM = loM;
    if (yM < loYM) return undefined;
  } else {
    blocked.sort((p, q) => p.loM - q.loM);
    for (const { loM, hiM } of blocked) if (yM > loM && yM < hiM) yM = hiM;
    if (yM > hiYM) return undefined;
  }
  return { ...cube, translationM: [cube.translationM[0], yM, cube.translationM[2]] };
}
