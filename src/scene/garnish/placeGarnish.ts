import type { Diagnostic } from '../../core/diagnostic.ts';
import { fromAxes, type RigidTransform } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import { radFromDeg } from '../../core/units.ts';
import { add, addScaled, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { ICE_CLEARANCE_M } from '../clearances.ts';
import { type GlassBody, piecesOf } from '../glassware/glassBody.ts';
import type { PackedIce } from '../ice/packIce.ts';
import { blockedHeights, type PlacedBox } from '../ice/roundedBoxGap.ts';
import { frameAlong, levelDirection } from '../parts/solidPart.ts';
import { cannotMake, madeWithin } from '../problems.ts';
import { radiusAtHeightM } from '../profile/index.ts';
import type { Garnish } from '../records.ts';
import { type Berries, berryParts, berrySeed } from './berries.ts';
import { citrusWedgeParts } from './citrusWedge.ts';
import { citrusWheelParts } from './citrusWheel.ts';
import { type GarnishPart, moveParts } from './garnishPart.ts';
import { mintParts } from './mint.ts';
import { olivesParts } from './olives.ts';
import { stanceOf } from './standing.ts';
import { stirrerParts, strawParts } from './tubes.ts';
import { coilPoints, coilRadiusM, smoothCurve, stripParts, type Twist } from './twist.ts';

/** What a garnish is set on: foot of the glass at y = 0. */
export interface Served {
  readonly body: GlassBody;
  readonly levelYM: number | undefined;
  readonly ice: readonly PackedIce[];
  /** Straws and picks that stand in the glass. */
  readonly standing: readonly PlacedBox[];
}

export interface PlacedGarnish {
  readonly parts: readonly GarnishPart[];
  readonly diagnostics: readonly Diagnostic[];
}

/** One garnish where it sits on its glass, in the frame of the glass. */
export function placeGarnish(recordId: string, index: number, garnish: Garnish, served: Served): PlacedGarnish {
  const { body } = served;
  const stance = stanceOf(body, garnish);
  const made = (parts: readonly GarnishPart[]): PlacedGarnish => ({ parts, diagnostics: [] });
  switch (garnish.kind) {
    case 'citrusWheel':
      if (garnish.place === 'rim') return made(wheelOnRim(body, garnish));
      return stance ? made(moveParts(citrusWheelParts(garnish, 0), stance.placement)) : doesNotFit(recordId, index);
    case 'citrusWedge':
      return made(wedgeOnRim(body, garnish));
    case 'twist':
      return made(twistOverRim(body, garnish));
    case 'olives':
      return stance
        ? made(moveParts(olivesParts(garnish, stance.firstOliveM ?? 0), stance.placement))
        : doesNotFit(recordId, index);
    case 'mint':
      return stance
        ? made(moveParts(mintParts(garnish, stance.stemM ?? 0), stance.placement))
        : doesNotFit(recordId, index);
    case 'straw':
      return stance ? made(moveParts(strawParts(garnish), stance.placement)) : doesNotFit(recordId, index);
    case 'stirrer':
      return stance ? made(moveParts(stirrerParts(garnish), stance.placement)) : doesNotFit(recordId, index);
    case 'berries':
      return placeBerries(recordId, index, garnish, served);
  }
}

const doesNotFit = (recordId: string, index: number): PlacedGarnish => ({
  parts: [],
  diagnostics: [
    cannotMake(
      recordId,
      'garnish-does-not-fit',
      `garnish[${index}]`,
      index,
      `garnish[${index}] does not fit into the glass: make it smaller or thinner. It is left out.`,
    ),
  ],
});

/** Middle of the wall at a height: between inside and outside. */
function wallMiddle(body: GlassBody, yM: number): { rM: number; halfM: number } {
  const inner = radiusAtHeightM(piecesOf(body.inside), Math.min(yM, body.inside[0].piece.from.yM)) ?? 0;
  const outer = radiusAtHeightM(piecesOf(body.outside.filter((p) => p.role === 'outer wall')), yM) ?? inner;
  return { rM: (inner + Math.max(inner, outer)) / 2, halfM: Math.max(0, outer - inner) / 2 };
}

/** Radius of the middle of the rim. */
function rimMiddleRM(body: GlassBody): number {
  const rim = body.outside.filter((p) => p.role === 'rim');
  const first = rim[0]?.piece.from.rM ?? body.inside[0].piece.from.rM;
  return (first + body.inside[0].piece.from.rM) / 2;
}

function wheelOnRim(body: GlassBody, wheel: Extract<Garnish, { kind: 'citrusWheel' }>): GarnishPart[] {
  const radiusM = wheel.diameterM / 2;
  const rimRM = rimMiddleRM(body);
  const lowYM = Math.max(body.floorYM + 0.002, body.rimYM - 0.95 * radiusM);
  const low = wallMiddle(body, lowYM);
  const downR = low.rM - rimRM;
  const downY = lowYM - body.rimYM;
  const l = Math.hypot(downR, downY);
  // As wide as the wall, its bend along the slit, and its curve across the slice.
  let gapM = wheel.thicknessM ** 2 / (8 * rimRM);
  for (let k = 0; k <= 8; k++) {
    const yM = body.rimYM + (downY * k) / 8;
    const here = wallMiddle(body, Math.min(yM, body.inside[0].piece.from.yM));
    const offM = Math.abs(here.rM - (rimRM + (downR * k) / 8));
    gapM = Math.max(gapM, offM + here.halfM + wheel.thicknessM ** 2 / (8 * rimRM));
  }
  const out = levelDirection(radFromDeg(wheel.azimuthDeg));
  const down: Vec3 = [(out[0] * downR) / l, downY / l, (out[2] * downR) / l];
  const tangent = levelDirection(radFromDeg(wheel.azimuthDeg) + Math.PI / 2);
  const rim: Vec3 = addScaled([0, body.rimYM, 0], out, rimRM);
  const slitM = Math.min(gapM + 0.0005, 0.3 * radiusM);
  // Within this of its middle the slit is narrower than the wall.
  const centre = addScaled(rim, down, -(Math.max(0.08 * radiusM, slitM / 0.85) + 0.0004));
  return moveParts(citrusWheelParts(wheel, slitM), frameAlong(centre, tangent, down));
}

/** Sharp edge down over the rim, half in and half out, peel up and turned a little toward the outside. */
function wedgeOnRim(body: GlassBody, wedge: Extract<Garnish, { kind: 'citrusWedge' }>): GarnishPart[] {
  const out = levelDirection(radFromDeg(wedge.azimuthDeg));
  const tilt = radFromDeg(14);
  const along: Vec3 = addScaled(scale(out, Math.cos(tilt)), [0, 1, 0], -Math.sin(tilt));
  const peel: Vec3 = addScaled(scale(out, Math.sin(tilt)), [0, 1, 0], Math.cos(tilt));
  const centre = addScaled([0, body.rimYM - 0.25 * wedge.diameterM, 0], out, rimMiddleRM(body) + 0.002);
  return moveParts(citrusWedgeParts(wedge), frameAlong(centre, along, peel));
}

/** Hooked over the rim, its outer end curled. */
function twistOverRim(body: GlassBody, twist: Twist): GarnishPart[] {
  const out = levelDirection(radFromDeg(twist.azimuthDeg));
  const side = levelDirection(radFromDeg(twist.azimuthDeg) + Math.PI / 2);
  const random = createRandom(twist.seed);
  const rimRM = rimMiddleRM(body);
  const innerRM = body.inside[0].piece.from.rM;
  const at = (rM: number, yM: number, acrossM: number): Vec3 =>
    add(addScaled([0, yM, 0], out, rM), scale(side, acrossM));
  const unit = twist.lengthM / 0.09;
  const hookM = Math.min(0.02 * unit, 0.5 * (body.rimYM - body.floorYM));
  const wanderM = 0.004 * (random() - 0.5);
  const inLow = Math.min(innerRM, wallMiddle(body, body.rimYM - hookM).rM) - 0.007;
  const outLowRM = Math.max(rimRM, wallMiddle(body, body.rimYM - hookM).rM) + 0.006;
  const turns = Math.max(0.4, twist.turns);
  const coilM = coilRadiusM(Math.max(0.4 * twist.lengthM, twist.lengthM - 2 * hookM), turns) * (0.92 + 0.16 * random());
  const axis = at(outLowRM + coilM + 0.002, body.rimYM - 0.6 * hookM, wanderM);
  const coil = coilPoints(axis, [0, -1, 0], scale(out, -1), {
    radiusM: coilM,
    pitchM: Math.max(twist.widthM * 1.7, 0.009),
    turns,
  });
  const points: Vec3[] = [
    at(inLow, body.rimYM - hookM, -wanderM * 2),
    at(inLow + 0.003, body.rimYM - 0.45 * hookM, -wanderM),
    at(rimRM - 0.002, body.rimYM + 0.0024, 0),
    at(rimRM + 0.0035, body.rimYM + 0.0016, 0),
    ...coil,
  ];
  const curve = smoothCurve(points);
  const hook = 3.5 / (points.length - 1);
  const axisAt = (p: Vec3): Vec3 => [axis[0], p[1], axis[2]];
  return stripParts(twist, curve, (t) => {
    const p = curve(t);
    // Over the rim the peel looks up and out; in the coil it looks away from its axis.
    const over: Vec3 = t < hook * 0.5 ? scale(out, -0.8) : [0, 1, 0];
    const fromAxis = normalize(sub(p, axisAt(p)));
    const mix = Math.max(0, Math.min(1, (t - hook * 0.75) / (hook * 0.5)));
    return addScaled(scale(over, 1 - mix), fromAxis, mix);
  });
}

const BERRY_TRIES = 60;
/** A berry floats with this share of its height out of the drink. Invented. */
const BERRY_SHARE_OUT = 0.12;

/** Berries float; where ice is in the way they lie on it; without a drink they lie on the floor. */
function placeBerries(recordId: string, index: number, berries: Berries, served: Served): PlacedGarnish {
  const { body, levelYM } = served;
  const inside = piecesOf(body.inside);
  const radiusM = berries.diameterM / 2;
  const others: PlacedBox[] = [
    ...served.standing,
    ...served.ice.map(({ body: ice, placement }) => ({
      box: {
        coreHalfM: [ice.halfM[0] - ice.bevelM, ice.halfM[1] - ice.bevelM, ice.halfM[2] - ice.bevelM] as const,
        bevelM: ice.bevelM,
      },
      placement,
    })),
  ];
  const parts: GarnishPart[] = [];
  let lying = 0;
  for (let i = 0; i < berries.count; i++) {
    const random = createRandom(berrySeed(berries, i) ^ 0x5bd1e995);
    let best: RigidTransform | undefined;
    for (let k = 0; k < BERRY_TRIES; k++) {
      const seatYM =
        levelYM === undefined ? body.floorYM + radiusM + 0.0003 : levelYM - radiusM * (1 - 2 * BERRY_SHARE_OUT);
      const wallRM = radiusAtHeightM(inside, Math.min(seatYM, inside[0].from.yM)) ?? 0;
      const reach = wallRM - radiusM - 0.0005;
      if (reach < 0) break;
      const r = reach * Math.sqrt(random());
      const phi = 2 * Math.PI * random();
      const at: RigidTransform = fromAxes([1, 0, 0], [0, 1, 0], [0, 0, 1], [r * Math.cos(phi), 0, r * Math.sin(phi)]);
      const yM = restOn({ box: { coreHalfM: [0, 0, 0], bevelM: radiusM }, placement: at }, others, seatYM);
      if (yM + radiusM > body.rimYM + berries.diameterM) continue;
      if (!best || yM < best.translationM[1])
        best = { ...at, translationM: [at.translationM[0], yM, at.translationM[2]] };
    }
    if (!best) continue;
    others.push({ box: { coreHalfM: [0, 0, 0], bevelM: radiusM }, placement: best });
    parts.push(...moveParts(berryParts(berries, i), best));
    lying++;
  }
  if (lying === berries.count) return { parts, diagnostics: [] };
  return {
    parts,
    diagnostics: [
      madeWithin(
        recordId,
        'berries-do-not-fit',
        `garnish[${index}].count`,
        berries.count,
        `Only ${lying} of ${berries.count} berries fit: lower garnish[${index}].count or make garnish[${index}].diameterM smaller.`,
      ),
    ],
  };
}

/** Least height, from the seat up, at which a ball is clear of all others. */
function restOn(ball: PlacedBox, others: readonly PlacedBox[], seatYM: number): number {
  const blocked = others.flatMap((other) => blockedHeights(ball, other, ICE_CLEARANCE_M) ?? []);
  blocked.sort((p, q) => p.loM - q.loM);
  let yM = seatYM;
  for (const { loM, hiM } of blocked) if (yM > loM && yM < hiM) yM = hiM;
  return yM;
}
