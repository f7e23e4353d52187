import { applyToDirection, type RigidTransform } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import { ICE_CLEARANCE_M } from '../clearances.ts';
import type { GlassBody } from '../glassware/glassBody.ts';
import type { Ice } from '../records.ts';
import { blockedHeights, type CubeSize } from './cubeGap.ts';
import { CUBE_CORNERS, drawCube } from './drawCube.ts';
import { type IceRoom, measureIceRoom } from './iceRoom.ts';

/** Share of floating ice that stands over the water: 1 - 916.7/998.2 (densities of ice at 0 C and water at 20 C). */
export const FLOATING_SHARE_ABOVE = 1 - 916.7 / 998.2;
/** Ice piled over the rim may stand out by this share of its edge. Invented. */
const SHARE_OVER_RIM = 0.4;
/** Height that a cube gives up for standing this much farther out. Invented: packs best of the values tried. */
const OUTWARD_BIAS = 0.25;
const TRIES_PER_CUBE = 500;

/**
 * Places ice cubes in a vessel, foot at y = 0, each as a transform from a cube centred on the origin. Cubes float: they
 * fill from the surface down, the topmost standing out by the share that real ice does. When there is no room left under
 * them, further cubes lie on top, up to a little over the rim. Without a drink, or when more fit so, they pile from the
 * floor. Most lie nearly flat. All keep ICE_CLEARANCE_M from the glass and one another. The same seed gives the same
 * ice; fewer come back than asked when no more fit.
 */
export function packIce(body: GlassBody, ice: Ice, levelYM: number | undefined): RigidTransform[] {
  const key = JSON.stringify([body.inside, body.convexUpToYM, body.rimYM, ice, levelYM]);
  const known = packed.get(key);
  if (known) return known;
  const cubes = packBest(body, ice, levelYM);
  if (packed.size >= REMEMBERED) packed.delete(packed.keys().next().value ?? key);
  packed.set(key, cubes);
  return cubes;
}

/** Packing takes some 50 ms, and a set is rebuilt at every move of any piece: the last ones are remembered. */
const packed = new Map<string, RigidTransform[]>();
const REMEMBERED = 64;

function packBest(body: GlassBody, ice: Ice, levelYM: number | undefined): RigidTransform[] {
  const afloat = levelYM === undefined ? [] : packFrom(body, ice, levelYM);
  if (afloat.length >= ice.count) return afloat;
  const piled = packFrom(body, ice, undefined);
  return piled.length > afloat.length ? piled : afloat;
}

function packFrom(body: GlassBody, ice: Ice, levelYM: number | undefined): RigidTransform[] {
  const random = createRandom(ice.seed);
  const size: CubeSize = { coreHalfM: Math.max(0, ice.edgeM / 2 - ice.bevelM), bevelM: ice.bevelM };
  const overYM = body.convexUpToYM < body.rimYM ? body.convexUpToYM : body.rimYM + SHARE_OVER_RIM * ice.edgeM;
  const room = measureIceRoom(body, ice.bevelM + ICE_CLEARANCE_M, overYM);
  const floatYM = levelYM === undefined ? Number.NEGATIVE_INFINITY : levelYM + (FLOATING_SHARE_ABOVE - 0.5) * ice.edgeM;
  const placed: RigidTransform[] = [];
  const placeBest = (pass: Pass): boolean => {
    let best: RigidTransform | undefined;
    for (let i = 0; i < TRIES_PER_CUBE; i++) {
      const candidate = settle(drawCube(random, size, room), placed, size, room, floatYM, pass);
      if (candidate && (!best || merit(candidate, pass) > merit(best, pass))) best = candidate;
    }
    if (best) placed.push(best);
    return best !== undefined;
  };
  if (levelYM !== undefined) while (placed.length < ice.count && placeBest('float'));
  while (placed.length < ice.count && placeBest('pile'));
  return placed;
}

type Pass = 'float' | 'pile';

/** Higher is better while floating, lower on a pile; of equals the one nearer the wall, which leaves room beside it. */
const merit = ({ translationM: [x, y, z] }: RigidTransform, pass: Pass): number =>
  (pass === 'float' ? y : -y) + OUTWARD_BIAS * Math.hypot(x, z);

/** Raises a cube to float as high as it can, or drops it as low as it goes over the ones that float. */
function settle(
  cube: RigidTransform,
  placed: readonly RigidTransform[],
  size: CubeSize,
  room: IceRoom,
  floatYM: number,
  pass: Pass,
): RigidTransform | undefined {
  let loYM = Number.NEGATIVE_INFINITY;
  let hiYM = Number.POSITIVE_INFINITY;
  for (const corner of CUBE_CORNERS) {
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
