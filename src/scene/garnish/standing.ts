import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import { radFromDeg } from '../../core/units.ts';
import { addScaled, scale, type Vec3 } from '../../core/vec3.ts';
import { type GlassBody, piecesOf } from '../glassware/glassBody.ts';
import type { PlacedBox } from '../ice/roundedBoxGap.ts';
import { frameAlong, levelDirection } from '../parts/solidPart.ts';
import { distanceToProfileM, radiusAtHeightM } from '../profile/index.ts';
import type { Garnish } from '../records.ts';
import type { CitrusWheel } from './citrusWheel.ts';
import { LEAN_CLEAR_M, type LeaningRod, leanRods } from './leanRod.ts';
import { MINT_STEM_RADIUS_M, type Mint } from './mint.ts';
import { OLIVE_WIDTH_SHARE, type Olives, PICK_HEAD_M, PICK_RADIUS_M, rowLengthM } from './olives.ts';
import { stirrerBallM } from './tubes.ts';

/** A garnish that stands in a vessel whatever is poured round it: where its frame is, and what ice must keep off. */
export interface Stance {
  readonly placement: RigidTransform;
  readonly boxes: readonly PlacedBox[];
  /** Distance along the frame's y to the middle of the first olive. */
  readonly firstOliveM?: number;
  /** Length of a sprig's stem below its leaves. */
  readonly stemM?: number;
}

/** The stance of a garnish in a vessel; undefined for what sits on the rim or floats, and for what does not fit. */
export function stanceOf(body: GlassBody, garnish: Garnish): Stance | undefined {
  switch (garnish.kind) {
    case 'straw':
      return rodStance(body, garnish.diameterM / 2, garnish.lengthM, garnish.azimuthDeg);
    case 'stirrer': {
      const radiusM = garnish.material === 'wood' ? garnish.diameterM / 2 : stirrerBallM(garnish);
      return rodStance(body, radiusM, garnish.lengthM, garnish.azimuthDeg);
    }
    case 'olives':
      return garnish.rest === 'leaning' ? leaningOlives(body, garnish) : olivesAcross(body, garnish);
    case 'mint':
      return mintStance(body, garnish);
    case 'citrusWheel':
      return garnish.place === 'inside' ? wheelInside(body, garnish) : undefined;
    default:
      return undefined;
  }
}

/** All that ice must keep off. */
export const standingOfGarnish = (body: GlassBody, garnish: readonly Garnish[] | undefined): PlacedBox[] =>
  (garnish ?? []).flatMap((item) => stanceOf(body, item)?.boxes ?? []);

function rodStance(body: GlassBody, radiusM: number, lengthM: number, azimuthDeg: number): Stance | undefined {
  const [rod] = leanRods(body, { radiusM, lengthM }, radFromDeg(azimuthDeg));
  if (!rod) return undefined;
  const placement = frameAlong(rod.footM, rod.up);
  return { placement, boxes: [capsule(placement, 0, lengthM, radiusM)] };
}

/** The room of a rod along a frame's y. */
const capsule = (frame: RigidTransform, fromM: number, toM: number, radiusM: number): PlacedBox => ({
  box: { coreHalfM: [0, (toM - fromM) / 2, 0], bevelM: radiusM },
  placement: compose(frame, translation([0, (fromM + toM) / 2, 0])),
});

/** Of all ways to lean, the one in which the first olive lies lowest. */
function leaningOlives(body: GlassBody, olives: Olives): Stance | undefined {
  const oliveRM = (olives.lengthM / 2) * OLIVE_WIDTH_SHARE;
  const rowM = rowLengthM(olives);
  let best: { rod: LeaningRod; firstM: number; heightYM: number } | undefined;
  const pick = { radiusM: PICK_RADIUS_M, lengthM: olives.pickLengthM, headM: PICK_HEAD_M };
  for (const rod of leanRods(body, pick, radFromDeg(olives.azimuthDeg))) {
    const firstM = firstRoomM(rod, olives, oliveRM);
    if (firstM === undefined) continue;
    const heightYM = rod.footM[1] + rod.up[1] * firstM;
    if (!best || heightYM < best.heightYM) best = { rod, firstM, heightYM };
  }
  if (!best) return undefined;
  const placement = frameAlong(best.rod.footM, best.rod.up);
  return {
    placement,
    firstOliveM: best.firstM,
    boxes: [
      capsule(placement, 0, olives.pickLengthM, PICK_RADIUS_M),
      capsule(placement, best.firstM, best.firstM + rowM - olives.lengthM, oliveRM),
    ],
  };
}

/** Least distance up a rod at which the row of olives clears the glass. */
function firstRoomM(rod: LeaningRod, olives: Olives, oliveRM: number): number | undefined {
  const rowM = rowLengthM(olives);
  const steps = 80;
  const points = olives.count * 5;
  for (let i = 0; i <= steps; i++) {
    const firstM = olives.lengthM / 2 + ((olives.pickLengthM - rowM) * i) / steps;
    const fits = Array.from({ length: points + 1 }, (_, k) => {
      const along = k / points;
      // An oval is widest in its middle: its ends need hardly more room than the pick.
      const inOlive = (along * olives.count) % 1;
      const wide = Math.sqrt(Math.max(0, 1 - (2 * inOlive - 1) ** 2));
      return rod.roomM(firstM - olives.lengthM / 2 + rowM * along) > oliveRM * wide + LEAN_CLEAR_M;
    }).every(Boolean);
    if (fits) return firstM;
  }
  return undefined;
}

function olivesAcross(body: GlassBody, olives: Olives): Stance {
  const along = levelDirection(radFromDeg(olives.azimuthDeg));
  const yM = body.rimYM + PICK_RADIUS_M + LEAN_CLEAR_M;
  const start: Vec3 = addScaled([0, yM, 0], along, -olives.pickLengthM / 2);
  const placement = frameAlong(start, along, [0, 1, 0]);
  const rowM = rowLengthM(olives);
  const firstOliveM = olives.pickLengthM / 2 - rowM / 2 + olives.lengthM / 2;
  const oliveRM = (olives.lengthM / 2) * OLIVE_WIDTH_SHARE;
  return {
    placement,
    firstOliveM,
    boxes: [
      capsule(placement, 0, olives.pickLengthM, PICK_RADIUS_M),
      capsule(placement, firstOliveM, firstOliveM + rowM - olives.lengthM, oliveRM),
    ],
  };
}

const MINT_LEAN_RAD = radFromDeg(14);
const MINT_OVER_RIM_M = 0.004;
const MINT_STEM_M = 0.055;

/** The stem leans out over the rim, its lower end some 55 mm down, as near to the wall as it gets. */
function mintStance(body: GlassBody, mint: Mint): Stance | undefined {
  const inside = piecesOf(body.inside);
  const walls = [...inside, ...piecesOf(body.outside.filter((p) => p.role === 'rim'))];
  const topYM = body.rimYM + MINT_OVER_RIM_M;
  const stemM = Math.min(MINT_STEM_M, 0.8 * (body.rimYM - body.floorYM)) + MINT_OVER_RIM_M;
  const clearM = MINT_STEM_RADIUS_M + LEAN_CLEAR_M;
  const rimRM = inside[0].from.rM;
  for (let k = 0; k <= 40; k++) {
    const s = rimRM * (1 - k / 40);
    const fits = Array.from({ length: 25 }, (_, i) => {
      const d = (stemM * i) / 24;
      const r = s - d * Math.sin(MINT_LEAN_RAD);
      const yM = topYM - d * Math.cos(MINT_LEAN_RAD);
      const wallRM = radiusAtHeightM(inside, Math.min(yM, inside[0].from.yM));
      return (
        wallRM !== undefined && Math.abs(r) < wallRM && distanceToProfileM(walls, { rM: Math.abs(r), yM }) >= clearM
      );
    }).every(Boolean);
    if (!fits) continue;
    const out = levelDirection(radFromDeg(mint.azimuthDeg));
    const up = addScaled(scale([0, 1, 0], Math.cos(MINT_LEAN_RAD)), out, Math.sin(MINT_LEAN_RAD));
    const placement = frameAlong(addScaled([0, topYM, 0], out, s), up, out);
    return { placement, stemM, boxes: [capsule(placement, -stemM, 0, MINT_STEM_RADIUS_M)] };
  }
  return undefined;
}

/** Upright against the wall, as far out as it goes, a little under half way up. */
function wheelInside(body: GlassBody, wheel: CitrusWheel): Stance | undefined {
  const inside = piecesOf(body.inside);
  const radiusM = wheel.diameterM / 2;
  const halfM = wheel.thicknessM / 2;
  const out = levelDirection(radFromDeg(wheel.azimuthDeg));
  const lowYM = body.floorYM + radiusM + 0.002;
  const highYM = body.rimYM - radiusM - 0.004;
  if (lowYM > highYM) return undefined;
  const yM = lowYM + 0.4 * (highYM - lowYM);
  let farM = Number.POSITIVE_INFINITY;
  for (let k = -8; k <= 8; k++) {
    const up = (radiusM * k) / 8;
    const wallRM = (radiusAtHeightM(inside, yM + up) ?? 0) - LEAN_CLEAR_M;
    const across = Math.sqrt(Math.max(0, radiusM ** 2 - up ** 2));
    if (wallRM <= across) return undefined;
    farM = Math.min(farM, Math.sqrt(wallRM ** 2 - across ** 2) - halfM);
  }
  if (farM < 0) return undefined;
  const placement = frameAlong(addScaled([0, yM, 0], out, farM), out, [0, 1, 0]);
  return {
    placement,
    boxes: [{ box: { coreHalfM: [radiusM * 0.9, halfM, radiusM * 0.9], bevelM: 0 }, placement }],
  };
}
