import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import { radFromDeg } from '../../core/units.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { type GlassBody, piecesOf } from '../glassware/glassBody.ts';
import { lensDisc } from '../parts/lens.ts';
import { PointGrid } from '../parts/pointGrid.ts';
import { ballShape } from '../parts/rod.ts';
import { frameAlong, type SolidPart } from '../parts/solidPart.ts';
import { directionAlong, distanceToProfileM, type ProfilePiece, pieceLengthM, pointAlong } from '../profile/index.ts';
import type { Condensation, GlassCut, Label } from '../records.ts';

export const MOST_DROPS = 1500;
/** Glass left under the buried side of a whole ball. */
const BURIED_CLEAR_M = 0.0001;
/** The base of a flat drop lies this far in the glass. */
const SUNK_M = 0.00004;
/** Angle at which drops meet glass that is a little greasy: 40 to 75 degrees. From memory. */
const CONTACT_RAD = [radFromDeg(40), radFromDeg(75)] as const;

export interface DropRoom {
  readonly body: GlassBody;
  /** Surface of the drink over the foot; drops reach a little higher. */
  readonly levelYM: number | undefined;
  readonly label?: Label | undefined;
  readonly cut?: GlassCut | undefined;
}

interface Drop {
  /** On the face of the glass. */
  readonly p: Vec3;
  readonly normal: Vec3;
  /** Radius of the wetted spot. */
  readonly baseM: number;
  readonly contactRad: number;
  /** Glass behind the spot. */
  readonly depthM: number;
}

/**
 * Drops on the outside of a glass, each a closed body of water sunk into the glass by its back, which the glass outranks.
 * Small ones are whole balls; those too deep for the wall are caps with a flat back. Sizes are spread so that small ones
 * are many (a power of a chance number), the large are laid first and keep a dry rim round them, as drops do that grew
 * by drinking up their neighbours. Nothing lies on a label, a cut pattern or a wiped band. At most 1500.
 */
export function layDrops(condensation: Condensation, room: DropRoom): SolidPart[] {
  const drops = scatter(condensation, room);
  return drops.flatMap((drop) => dropParts(drop));
}

function dropParts({ p, normal, baseM, contactRad, depthM }: Drop): SolidPart[] {
  const ballM = baseM / Math.sin(contactRad);
  const frame = frameAlong(p, normal);
  if (ballM * (1 + Math.cos(contactRad)) < depthM - BURIED_CLEAR_M) {
    const placement: RigidTransform = compose(frame, translation([0, -ballM * Math.cos(contactRad), 0]));
    return [{ role: 'drop', shape: ballShape(ballM), worldFromLocal: placement }];
  }
  // The glass curves away under the spot: its back must lie under all of it.
  const wallRM = Math.max(baseM * 1.5, Math.hypot(p[0], p[2]));
  const sunkM = SUNK_M + (wallRM - Math.sqrt(wallRM * wallRM - baseM * baseM));
  const heightM = baseM * Math.tan(contactRad / 2) + sunkM;
  return lensDisc('drop', baseM, heightM, compose(frame, translation([0, -sunkM, 0])));
}

/** Heights between which water settles: as given, else from the foot of the wall to a little over the drink. */
export function wettedBand(
  c: Condensation,
  body: GlassBody,
  levelYM: number | undefined,
): { readonly lowYM: number; readonly highYM: number } {
  const walls = piecesOf(body.outside.filter((q) => q.role === 'outer wall'));
  return {
    lowYM: c.bottomM ?? Math.min(...walls.map((w) => Math.min(w.from.yM, w.to.yM))) + 0.002,
    highYM: c.topM ?? Math.min(body.rimYM - 0.003, levelYM === undefined ? body.rimYM : levelYM + 0.004),
  };
}

function scatter(c: Condensation, { body, levelYM, label, cut }: DropRoom): Drop[] {
  const random = createRandom(c.seed);
  const walls = piecesOf(body.outside.filter((q) => q.role === 'outer wall'));
  if (walls.length === 0) return [];
  const inside = piecesOf(body.inside);
  const { lowYM, highYM } = wettedBand(c, body, levelYM);
  const cells = wallCells(walls, lowYM, highYM);
  const areaM2 = cells.reduce((sum, cell) => sum + cell.areaM2, 0);
  const wanted = Math.min(MOST_DROPS, Math.round(c.dropsPerCm2 * areaM2 * 1e4));
  const lo = Math.min(c.minDiameterM, c.maxDiameterM) / 2;
  const hi = Math.max(c.minDiameterM, c.maxDiameterM) / 2;
  const sizes = Array.from({ length: wanted }, () => lo + (hi - lo) * random() ** 2.2).sort((a, b) => b - a);
  const running = runningSums(cells.map((cell) => cell.areaM2));
  const drops: Drop[] = [];
  const grid = new PointGrid(3.2 * hi);
  for (const baseM of sizes) {
    const contactRad = CONTACT_RAD[0] + (CONTACT_RAD[1] - CONTACT_RAD[0]) * random();
    for (let tries = 0; tries < 6; tries++) {
      const cell = cells[pick(running, random() * areaM2)];
      const t = Math.max(0, Math.min(1, cell.t + (random() - 0.5) * cell.stepT));
      const at = pointAlong(cell.piece, t);
      const phi = 2 * Math.PI * random();
      if (isKeptDry(at.yM, phi, c, label, cut)) continue;
      const p: Vec3 = [at.rM * Math.cos(phi), at.yM, at.rM * Math.sin(phi)];
      const reachM = spread(baseM, contactRad);
      if (grid.near(p).some((i) => tooNear(drops[i], p, reachM))) continue;
      const d = directionAlong(cell.piece, t);
      const normal: Vec3 = [d.yM * Math.cos(phi), -d.rM, d.yM * Math.sin(phi)];
      grid.add(p, drops.length);
      drops.push({ p, normal, baseM, contactRad, depthM: distanceToProfileM(inside, at) });
      break;
    }
  }
  return drops;
}

/** Room that a drop takes on the face: its whole ball, and a dry rim. */
const spread = (baseM: number, contactRad: number): number => (1.08 * baseM) / Math.sin(contactRad) + 0.00006;

const tooNear = (drop: Drop, p: Vec3, reachM: number): boolean =>
  Math.hypot(p[0] - drop.p[0], p[1] - drop.p[1], p[2] - drop.p[2]) < spread(drop.baseM, drop.contactRad) + reachM;

function isKeptDry(yM: number, phi: number, { wiped }: Condensation, label?: Label, cut?: GlassCut): boolean {
  if (wiped && yM > wiped.bottomM && yM < wiped.topM && within(phi, wiped.azimuthDeg, wiped.spanDeg)) return true;
  if (cut && yM > cut.bottomM - 0.002 && yM < cut.topM + 0.002) return true;
  return (
    label !== undefined &&
    yM > label.bottomM - 0.002 &&
    yM < label.bottomM + label.heightM + 0.002 &&
    within(phi, label.azimuthDeg, label.spanDeg + 4)
  );
}

function within(phi: number, middleDeg: number, spanDeg: number): boolean {
  const off = Math.cos(phi - radFromDeg(middleDeg));
  return spanDeg >= 360 || off > Math.cos(radFromDeg(spanDeg) / 2);
}

interface Cell {
  readonly piece: ProfilePiece;
  readonly t: number;
  readonly stepT: number;
  readonly areaM2: number;
}

/** The outside between two heights in narrow rings. */
function wallCells(walls: readonly ProfilePiece[], lowYM: number, highYM: number): Cell[] {
  const steps = 40;
  return walls.flatMap((piece) =>
    Array.from({ length: steps }, (_, k): Cell => {
      const t = (k + 0.5) / steps;
      const p = pointAlong(piece, t);
      const inBand = p.yM >= lowYM && p.yM <= highYM;
      const areaM2 = inBand ? (2 * Math.PI * p.rM * pieceLengthM(piece)) / steps : 0;
      return { piece, t, stepT: 1 / steps, areaM2 };
    }).filter((cell) => cell.areaM2 > 0),
  );
}

function runningSums(values: readonly number[]): number[] {
  let sum = 0;
  return values.map((v) => {
    sum += v;
    return sum;
  });
}

/** First place whose running sum is over `value`. */
function pick(running: readonly number[], value: number): number {
  let lo = 0;
  let hi = running.length - 1;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (running[mid] > value) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}
