import { inversePoint, type RigidTransform, translation } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { DrinkBody } from '../glassware/drinkBody.ts';
import { type GlassBody, piecesOf } from '../glassware/glassBody.ts';
import type { PackedIce } from '../ice/packIce.ts';
import type { PlacedBox } from '../ice/roundedBoxGap.ts';
import { PointGrid } from '../parts/pointGrid.ts';
import {
  directionAlong,
  distanceToProfileM,
  type ProfilePiece,
  pieceLengthM,
  pointAlong,
  radiusAtHeightM,
} from '../profile/index.ts';
import type { Bubbles } from '../records.ts';

export interface Bubble {
  readonly centreM: Vec3;
  readonly radiusM: number;
}

/** Bubbles keep this far from glass, ice, the surface and one another. */
const CLEAR_M = 0.00005;
/** A clinging bubble leaves a film of drink this thick to the wall. */
const FILM_M = 0.00002;
const BUBBLES_PER_CHAIN = 16;

export interface BubbleRoom {
  readonly body: GlassBody;
  readonly drink: DrinkBody;
  readonly ice: readonly PackedIce[];
  readonly standing: readonly PlacedBox[];
}

/**
 * Bubbles of a drink, foot of the glass at y = 0. Chains rise from sites on the floor and low on the wall: as a bubble
 * climbs it grows and gains speed, so that higher up they are larger and farther apart (sizes follow the root of the
 * height, gaps too; after the look of sparkling wine, no source). Clinging ones sit on the wetted inside, evenly by area.
 * None overlaps anything; those that find no room are left out.
 */
export function layBubbles(bubbles: Bubbles, room: BubbleRoom): Bubble[] {
  const random = createRandom(bubbles.seed);
  const lo = Math.min(bubbles.minDiameterM, bubbles.maxDiameterM) / 2;
  const hi = Math.max(bubbles.minDiameterM, bubbles.maxDiameterM) / 2;
  const found: Bubble[] = [];
  const grid = new PointGrid(2 * hi + CLEAR_M);
  const free = createRoomTest(room);
  const take = (centreM: Vec3, radiusM: number, wallGapM: number): boolean => {
    if (!free(centreM, radiusM, wallGapM)) return false;
    if (grid.near(centreM).some((i) => distanceM(found[i].centreM, centreM) < found[i].radiusM + radiusM + CLEAR_M))
      return false;
    grid.add(centreM, found.length);
    found.push({ centreM, radiusM });
    return true;
  };

  const wet = piecesOf(room.drink.wet);
  const site = createWallSampler(wet);
  let left = bubbles.rising;
  for (let chain = 0; left > 0 && chain < bubbles.rising; chain++) {
    // Most sites lie on the floor: the lowest third of the wetted inside by height.
    const at = site.sample(random(), random(), room.drink.levelYM - room.body.floorYM, 0.3);
    const phi = 2 * Math.PI * random();
    const startR = Math.max(0, at.rM - hi - 4 * CLEAR_M);
    const riseM = room.drink.levelYM - at.yM;
    let yM = at.yM + lo + 4 * CLEAR_M;
    const wander = 2 * Math.PI * random();
    for (let k = 0; k < BUBBLES_PER_CHAIN && left > 0; k++) {
      const up = Math.max(0, Math.min(1, (yM - at.yM) / riseM));
      const radiusM = (lo + (hi - lo) * Math.sqrt(up)) * (0.85 + 0.15 * random());
      const r = startR * (1 - 0.04 * up);
      const shakeM = 0.0004 * up;
      const centre: Vec3 = [
        r * Math.cos(phi) + shakeM * Math.cos(wander + 2.4 * k),
        yM,
        r * Math.sin(phi) + shakeM * Math.sin(wander + 2.4 * k),
      ];
      if (take(centre, radiusM, CLEAR_M)) left--;
      yM += (0.0016 + 0.011 * Math.sqrt(up)) * (0.75 + 0.5 * random());
      if (yM > room.drink.levelYM - hi) break;
    }
  }
  for (let i = 0, tries = 0; i < bubbles.clinging && tries < 3 * bubbles.clinging; tries++) {
    const at = site.sample(random(), random(), 1, 1);
    const phi = 2 * Math.PI * random();
    const radiusM = lo + (hi - lo) * random() ** 2;
    const off = radiusM + FILM_M;
    const r = at.rM + at.normalR * off;
    const yM = at.yM + at.normalY * off;
    if (r < 0) continue;
    if (take([r * Math.cos(phi), yM, r * Math.sin(phi)], radiusM, FILM_M * 0.5)) i++;
  }
  return found;
}

const distanceM = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Is a ball wholly in the drink and clear of glass, ice and what stands in it? */
function createRoomTest({ body, drink, ice, standing }: BubbleRoom) {
  const inside = piecesOf(body.inside);
  const solids: PlacedBox[] = [
    ...standing,
    ...ice.map(({ body: piece, placement }) => ({
      box: {
        coreHalfM: [
          piece.halfM[0] - piece.bevelM,
          piece.halfM[1] - piece.bevelM,
          piece.halfM[2] - piece.bevelM,
        ] as const,
        bevelM: piece.bevelM,
      },
      placement,
    })),
  ];
  return (centreM: Vec3, radiusM: number, wallGapM: number): boolean => {
    const [x, y, z] = centreM;
    if (y + radiusM > drink.levelYM - CLEAR_M) return false;
    const rM = Math.hypot(x, z);
    const wallRM = radiusAtHeightM(inside, y);
    if (wallRM === undefined || rM >= wallRM) return false;
    if (distanceToProfileM(inside, { rM, yM: y }) < radiusM + wallGapM) return false;
    return solids.every((solid) => distanceToBoxM(solid, centreM) > radiusM + CLEAR_M);
  };
}

/** Distance from a point to a rounded box, negative inside. */
export function distanceToBoxM({ box, placement }: PlacedBox, pointM: Vec3): number {
  const p = inversePoint(placement, pointM);
  const q = p.map((v, k) => Math.abs(v) - box.coreHalfM[k]);
  const outside = Math.hypot(Math.max(0, q[0]), Math.max(0, q[1]), Math.max(0, q[2]));
  return outside + Math.min(0, Math.max(q[0], q[1], q[2])) - box.bevelM;
}

/** Points on the wetted inside, evenly by area, with the normal toward the drink. */
function createWallSampler(wet: readonly ProfilePiece[]) {
  const steps = 24;
  const cells = wet.flatMap((piece) =>
    Array.from({ length: steps }, (_, k) => {
      const t = (k + 0.5) / steps;
      return { piece, t, areaM2: (pointAlong(piece, t).rM * pieceLengthM(piece)) / steps };
    }),
  );
  const lowYM = Math.min(...wet.map((p) => Math.min(p.from.yM, p.to.yM)));
  return {
    /** `u` picks the cell among those under `share` of `heightM` over the floor, `v` the place in it. */
    sample(u: number, v: number, heightM: number, share: number) {
      const some =
        share < 1 ? cells.filter(({ piece, t }) => pointAlong(piece, t).yM - lowYM <= share * heightM) : cells;
      const all = some.reduce((sum, c) => sum + c.areaM2, 0);
      let rest = u * all;
      let cell = some[some.length - 1];
      for (const c of some) {
        rest -= c.areaM2;
        if (rest < 0) {
          cell = c;
          break;
        }
      }
      const t = Math.max(0, Math.min(1, cell.t + (v - 0.5) / steps));
      const p = pointAlong(cell.piece, t);
      const d = directionAlong(cell.piece, t);
      // The front is on the right of the walk: toward the drink.
      return { rM: p.rM, yM: p.yM, normalR: d.yM, normalY: -d.rM };
    },
  };
}

export const bubblePlacement = (bubble: Bubble): RigidTransform => translation(bubble.centreM);
