import { applyToDirection, type RigidTransform } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { ICE_CLEARANCE_M } from '../clearances.ts';
import type { GlassBody } from '../glassware/glassBody.ts';
import type { Ice } from '../records.ts';
import { BOX_CORNERS, drawPlacement } from './drawPlacement.ts';
import { FLOATING_SHARE_ABOVE, levelWithShareAbove, waterlineM } from './floating.ts';
import { type IceBody, makeIceBodies } from './iceBody.ts';
import { type IceRoom, measureIceRoom } from './iceRoom.ts';
import { blockedHeights, type PlacedBox, type RoundedBox } from './roundedBoxGap.ts';

/** Ice piled over the rim may stand out by this share of its edge. Invented. */
const SHARE_OVER_RIM = 0.4;
/** Height that a piece gives up for standing this much farther out. Invented: packs best of the values tried. */
const OUTWARD_BIAS = 0.25;
/** All tries for one glass; few pieces get more each. */
const TRIES_IN_ALL = 3000;
const MOST_TRIES_PER_PIECE = 500;
const LEAST_TRIES_PER_PIECE = 24;

/** One piece of ice where it lies, foot of the glass at y = 0. */
export interface PackedIce {
  readonly body: IceBody;
  readonly placement: RigidTransform;
}

/**
 * Places ice in a vessel. Pieces float: they fill from the surface down, each as high as Archimedes lets it stand alone.
 * Those that lie under others would rise if they could and so lift them: the whole pack is raised together until 8.3 %
 * of all its ice is over the surface, or until it meets the glass. When there is no room left under them, further pieces
 * lie on top, up to a little over the rim, and nothing is lifted. Without a drink, or when more fit so, they pile from the
 * floor. All keep ICE_CLEARANCE_M from the glass, from one another and from `standing` (straws, picks). The same seed
 * gives the same ice; fewer come back than asked when no more fit.
 */
export function packIce(
  body: GlassBody,
  ice: Ice,
  levelYM: number | undefined,
  standing: readonly PlacedBox[] = [],
): PackedIce[] {
  const key = JSON.stringify([body.inside, body.convexUpToYM, body.rimYM, ice, levelYM, standing]);
  const known = packed.get(key);
  if (known) return known;
  const pieces = packBest(body, ice, levelYM, standing);
  if (packed.size >= REMEMBERED) packed.delete(packed.keys().next().value ?? key);
  packed.set(key, pieces);
  return pieces;
}

/** Packing takes some 50 ms, and a set is rebuilt at every move of any piece: the last ones are remembered. */
const packed = new Map<string, PackedIce[]>();
const REMEMBERED = 64;

function packBest(body: GlassBody, ice: Ice, levelYM: number | undefined, standing: readonly PlacedBox[]): PackedIce[] {
  const afloat = levelYM === undefined ? [] : packFrom(body, ice, levelYM, standing);
  if (levelYM !== undefined && afloat.length >= ice.count) return afloat;
  const piled = packFrom(body, ice, undefined, standing);
  return piled.length > afloat.length ? piled : afloat;
}

interface Placed extends PlacedBox {
  readonly body: IceBody;
}

function packFrom(
  glass: GlassBody,
  ice: Ice,
  levelYM: number | undefined,
  standing: readonly PlacedBox[],
): PackedIce[] {
  const random = createRandom(ice.seed);
  const bodies = makeIceBodies(ice, levelYM !== undefined, random);
  if (bodies.length === 0) return [];
  const form = ice.form ?? 'cube';
  const overYM =
    glass.convexUpToYM < glass.rimYM
      ? glass.convexUpToYM
      : glass.rimYM + SHARE_OVER_RIM * Math.max(...bodies[0].halfM) * 2;
  const room = measureIceRoom(glass, bodies[0].bevelM + ICE_CLEARANCE_M, overYM);
  const tries = Math.max(
    LEAST_TRIES_PER_PIECE,
    Math.min(MOST_TRIES_PER_PIECE, Math.floor(TRIES_IN_ALL / bodies.length)),
  );
  const placed: Placed[] = [];
  const placeBest = (pass: Pass): boolean => {
    const body = bodies[placed.length];
    const box = boxOf(body);
    const others = [...standing, ...placed].map(withReach);
    let best: RigidTransform | undefined;
    for (let i = 0; i < tries; i++) {
      const drawn = drawPlacement(random, form, box, room);
      const piece = { box, placement: drawn };
      const free = freeHeights(piece, room);
      if (!free) continue;
      const seatYM = levelYM === undefined ? undefined : levelYM - waterlineM(drawn.rotation, body.samples);
      const candidate = settle(piece, others, free, seatYM, pass);
      if (candidate && (!best || merit(candidate, pass) > merit(best, pass))) best = candidate;
    }
    if (best) placed.push({ body, box, placement: best });
    return best !== undefined;
  };
  if (levelYM !== undefined) while (placed.length < bodies.length && placeBest('float'));
  if (placed.length < bodies.length) while (placed.length < bodies.length && placeBest('pile'));
  else if (levelYM !== undefined) liftPack(placed, levelYM, room, standing);
  return placed.map(({ body, placement }) => ({ body, placement }));
}

const boxOf = ({ halfM, bevelM }: IceBody): RoundedBox => ({
  coreHalfM: [Math.max(0, halfM[0] - bevelM), Math.max(0, halfM[1] - bevelM), Math.max(0, halfM[2] - bevelM)],
  bevelM,
});

type Pass = 'float' | 'pile';

/** Higher is better while floating, lower on a pile; of equals the one nearer the wall, which leaves room beside it. */
const merit = ({ translationM: [x, y, z] }: RigidTransform, pass: Pass): number =>
  (pass === 'float' ? y : -y) + OUTWARD_BIAS * Math.hypot(x, z);

/** Heights between which the whole piece keeps clear of the glass, or undefined where there are none. */
function freeHeights({ box, placement }: PlacedBox, room: IceRoom): { loYM: number; hiYM: number } | undefined {
  let loYM = Number.NEGATIVE_INFINITY;
  let hiYM = Number.POSITIVE_INFINITY;
  const c = box.coreHalfM;
  for (const corner of BOX_CORNERS) {
    const d: Vec3 = applyToDirection(placement, [corner[0] * c[0], corner[1] * c[1], corner[2] * c[2]]);
    const free = room.heightsAt(Math.hypot(placement.translationM[0] + d[0], placement.translationM[2] + d[2]));
    if (!free) return undefined;
    loYM = Math.max(loYM, free.loYM - d[1]);
    hiYM = Math.min(hiYM, free.hiYM - d[1]);
  }
  return loYM <= hiYM ? { loYM, hiYM } : undefined;
}

const reachM = ({ coreHalfM: c, bevelM }: RoundedBox): number => Math.hypot(c[0], c[1], c[2]) + bevelM;

interface Reaching {
  readonly placed: PlacedBox;
  readonly reachM: number;
}

const withReach = (placed: PlacedBox): Reaching => ({ placed, reachM: reachM(placed.box) });

/** Raises a piece to float as high as it can, or drops it as low as it goes over the ones that float. */
function settle(
  piece: PlacedBox,
  others: readonly Reaching[],
  free: { readonly loYM: number; readonly hiYM: number },
  seatYM: number | undefined,
  pass: Pass,
): RigidTransform | undefined {
  const hiYM = pass === 'float' && seatYM !== undefined ? Math.min(free.hiYM, seatYM) : free.hiYM;
  const loYM = pass === 'pile' && seatYM !== undefined ? Math.max(free.loYM, seatYM) : free.loYM;
  if (loYM > hiYM) return undefined;

  const blocked: { readonly loM: number; readonly hiM: number }[] = [];
  const [x, , z] = piece.placement.translationM;
  const ownM = reachM(piece.box) + ICE_CLEARANCE_M;
  for (const other of others) {
    const dx = x - other.placed.placement.translationM[0];
    const dz = z - other.placed.placement.translationM[2];
    const reach = ownM + other.reachM;
    // Seen from above the balls round both pieces don't meet.
    if (dx * dx + dz * dz > reach * reach) continue;
    const interval = blockedHeights(piece, other.placed, ICE_CLEARANCE_M);
    if (interval) blocked.push(interval);
  }
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
  const { translationM } = piece.placement;
  return { ...piece.placement, translationM: [translationM[0], yM, translationM[2]] };
}

/** Raises all pieces by one height, so that together they stand out by their share, or as far as glass and straws allow. */
function liftPack(placed: Placed[], levelYM: number, room: IceRoom, standing: readonly PlacedBox[]): void {
  const heights = new Float64Array(placed.reduce((sum, p) => sum + p.body.samples.length / 3, 0));
  const mostM3 = Math.max(...placed.map((p) => p.body.volumeM3));
  let n = 0;
  for (const { body, placement } of placed) {
    // As many samples as its volume deserves: the sets are equally long, so a smaller piece gives only some of its own.
    const count = Math.max(1, Math.round((body.samples.length / 3) * (body.volumeM3 / mostM3)));
    const [a, b, c] = [placement.rotation[3], placement.rotation[4], placement.rotation[5]];
    for (let i = 0; i < count; i++) {
      const s = body.samples;
      heights[n++] = placement.translationM[1] + a * s[3 * i] + b * s[3 * i + 1] + c * s[3 * i + 2];
    }
  }
  let riseM = levelYM - levelWithShareAbove(heights.subarray(0, n), FLOATING_SHARE_ABOVE);
  if (!(riseM > 0)) return;
  for (const piece of placed) {
    const free = freeHeights(piece, room);
    const yM = piece.placement.translationM[1];
    if (free) riseM = Math.min(riseM, free.hiYM - yM);
    for (const other of standing) {
      const blocked = blockedHeights(piece, other, ICE_CLEARANCE_M);
      // Heights are counted from where the piece is: what lies over it stops it there.
      if (blocked && blocked.loM > -1e-9) riseM = Math.min(riseM, Math.max(0, blocked.loM));
    }
  }
  if (!(riseM > 0)) return;
  placed.forEach((piece, i) => {
    const [x, y, z] = piece.placement.translationM;
    placed[i] = { ...piece, placement: { ...piece.placement, translationM: [x, y + riseM, z] } };
  });
}
