import type { Diagnostic } from '../../core/diagnostic.ts';
import { radFromDeg } from '../../core/units.ts';
import { inMm, madeWithin } from '../problems.ts';
import {
  arcAbout,
  joinPieces,
  lineBetween,
  type ProfilePiece,
  type ProfilePoint,
  profilePoint,
  radiusAtHeightM,
  revolvedVolumeM3,
  splitProfileAtHeight,
} from '../profile/index.ts';
import type { Drink } from '../records.ts';
import { type GlassBody, type GlassPart, piecesOf } from './glassBody.ts';

export interface DrinkPart {
  readonly role: 'meniscus' | 'liquid top';
  readonly piece: ProfilePiece;
}

/** The drink in one vessel: its own top, and the inside of the glass parted at the line where the drink meets it. */
export interface DrinkBody {
  /** Height of the level middle of the drink, foot of the glass at 0. */
  readonly levelYM: number;
  readonly contact: ProfilePoint;
  /** From the contact line in to the axis; the front is up, toward the air. */
  readonly top: readonly DrinkPart[];
  readonly wet: readonly GlassPart[];
  readonly dry: readonly GlassPart[];
  readonly diagnostics: readonly Diagnostic[];
}

/** A meniscus lower than this is left out. */
const THINNEST_RISE_M = 2e-5;

/** The drink stays this far under the inner edge of the rim. */
const FREEBOARD_M = 0.0005;

/**
 * Angle between drink and glass at the contact line: water on washed glass, 10 to 30 degrees (from memory). Not 0: real
 * glass is never that clean, and a film that thins out to nothing along the wall is finer than any ray can tell.
 */
const CONTACT_ANGLE_RAD = radFromDeg(15);
/** A wall that leans farther than this, contact angle included, draws no drink up. */
const STEEPEST_SIN = 0.98;

/**
 * Fills a vessel. The level stands at fillFraction of the inside height, or where fillMl and `displacedM3` (sunken ice) lie
 * under it; at the wall the drink climbs along a circular
 * arc that meets the wall at the contact angle a and runs out tangent to the level. On an upright wall it climbs
 * meniscusM; on a wall that leans out by t from the vertical it climbs less, by the law of a flat meniscus on a tilted
 * plate: h^2 = 2 l^2 (1 - sin(t + a)), l the capillary length (de Gennes, Brochard-Wyart and Quere, Capillarity and
 * Wetting Phenomena, 2004, chapter 2; from memory).
 */
export function fillGlassBody(recordId: string, body: GlassBody, drink: Drink, displacedM3 = 0): DrinkBody {
  const diagnostics: Diagnostic[] = [];
  const inside = piecesOf(body.inside);
  const brimYM = brimLevelYM(inside, drink.meniscusM);
  const byVolume = drink.fillMl !== undefined;
  const askedLevelYM = byVolume
    ? levelOfVolumeYM(body, drink.meniscusM, (drink.fillMl ?? 0) * M3_PER_ML + displacedM3, brimYM)
    : body.floorYM + (drink.fillFraction ?? DEFAULT_FILL) * (body.rimYM - body.floorYM);
  if (askedLevelYM > brimYM) {
    const most = fillToLevel(body, brimYM, drink.meniscusM);
    diagnostics.push(
      madeWithin(
        recordId,
        'drink-over-rim',
        byVolume ? 'drink.fillMl' : 'drink.fillFraction',
        byVolume ? drink.fillMl : drink.fillFraction,
        byVolume
          ? `drink.fillMl would run over the rim: the level is kept at ${inMm(brimYM)} above the foot. Lower it to ${Math.floor((underSurfaceM3(most) - displacedM3) / M3_PER_ML)} ml or less.`
          : `drink.fillFraction would run over the rim: the level is kept at ${inMm(brimYM)} above the foot. Lower it to ${((brimYM - body.floorYM) / (body.rimYM - body.floorYM)).toFixed(3)} or less.`,
      ),
    );
  }
  const filled = fillToLevel(body, Math.min(askedLevelYM, brimYM), drink.meniscusM);
  if (filled.loweredToM !== undefined) {
    diagnostics.push(
      madeWithin(
        recordId,
        'meniscus-lowered',
        'drink.meniscusM',
        drink.meniscusM,
        `drink.meniscusM has no room at this level and is lowered to ${inMm(filled.loweredToM)}: fill more into the glass or lower drink.meniscusM.`,
      ),
    );
  }
  const { loweredToM: _, ...rest } = filled;
  return { ...rest, diagnostics };
}

/** For records that say nothing, which the reader refuses. */
const DEFAULT_FILL = 0.75;
const M3_PER_ML = 1e-6;

/** Room under the surface of a drink, sunken ice included. Closed form. */
export const underSurfaceM3 = ({ top, wet }: Pick<DrinkBody, 'top' | 'wet'>): number =>
  revolvedVolumeM3(top.map((p) => p.piece)) - revolvedVolumeM3(piecesOf(wet));

/** Highest level whose edge stays FREEBOARD_M under the inner edge of the rim. */
function brimLevelYM(inside: readonly ProfilePiece[], meniscusM: number): number {
  const highestContactYM = inside[0].from.yM - FREEBOARD_M;
  return highestContactYM - meniscusM * riseFactor(inside, highestContactYM);
}

/** The level under which a volume lies, by bisection; over the brim when it holds less. */
function levelOfVolumeYM(body: GlassBody, meniscusM: number, volumeM3: number, brimYM: number): number {
  let lo = body.floorYM;
  let hi = brimYM;
  if (underSurfaceM3(fillToLevel(body, hi, meniscusM)) < volumeM3) return Number.POSITIVE_INFINITY;
  for (let i = 0; i < 40; i++) {
    const mid = (lo + hi) / 2;
    if (underSurfaceM3(fillToLevel(body, mid, meniscusM)) < volumeM3) lo = mid;
    else hi = mid;
  }
  return hi;
}

interface Level extends Omit<DrinkBody, 'diagnostics'> {
  /** Rise of a meniscus that had no room for what was asked. */
  readonly loweredToM?: number;
}

function fillToLevel(body: GlassBody, levelYM: number, meniscusM: number): Level {
  const inside = piecesOf(body.inside);
  const highestContactYM = inside[0].from.yM - FREEBOARD_M;
  // A meniscus needs room: in a thin film over a rounded floor it is lowered until it fits.
  let riseM = meniscusM;
  let arc: ProfilePiece | undefined;
  let contactYM = levelYM;
  const climbs = meniscusM > THINNEST_RISE_M && riseFactor(inside, levelYM) > riseFactorOf(STEEPEST_SIN);
  while (climbs && riseM > THINNEST_RISE_M) {
    contactYM = contactHeightM(inside, levelYM, riseM, highestContactYM);
    arc = meniscusArc(inside, levelYM, contactYM);
    if (arc) break;
    riseM *= 0.75;
  }
  if (!arc) contactYM = levelYM;

  const { below, above } = splitProfileAtHeight(body.inside, contactYM);
  const contact = below[0].piece.from;
  const top: DrinkPart[] = [];
  if (arc) top.push({ role: 'meniscus', piece: { ...arc, from: contact } });
  const edge = arc ? arc.to : contact;
  top.push({ role: 'liquid top', piece: lineBetween(edge, profilePoint(0, edge.yM)) });
  const joined = joinPieces(top.map((p) => p.piece));
  return {
    levelYM: edge.yM,
    contact,
    top: joined.map((piece, i) => ({ role: top[i].role, piece })),
    wet: below,
    dry: above,
    ...(climbs && riseM < meniscusM ? { loweredToM: arc ? riseM : 0 } : {}),
  };
}

/** sin of the lean of the inside wall at height yM: 0 upright, positive leaning out, 1 a level floor. */
function leanSin(inside: readonly ProfilePiece[], yM: number): number {
  for (const piece of inside) {
    const hiYM = Math.max(piece.from.yM, piece.to.yM);
    const loYM = Math.min(piece.from.yM, piece.to.yM);
    if (yM > hiYM || yM < loYM || hiYM === loYM) continue;
    if (piece.type === 'line') {
      const l = Math.hypot(piece.to.rM - piece.from.rM, piece.to.yM - piece.from.yM);
      return (piece.from.rM - piece.to.rM) / l;
    }
    // The inside is hollow toward the axis or bulges into it; its tangent leans by the height over the arc's centre.
    const s = Math.max(-1, Math.min(1, (yM - piece.centre.yM) / piece.radiusM));
    return piece.angle1Rad < piece.angle0Rad ? -s : s;
  }
  return 0;
}

/** Rise over that on an upright wall, from the sine of lean plus contact angle. */
const riseFactorOf = (sinReach: number): number =>
  Math.sqrt(Math.max(0, 1 - sinReach) / (1 - Math.sin(CONTACT_ANGLE_RAD)));

/** Lean of the inside wall from the vertical plus the contact angle, at most a right angle. */
const reachRad = (inside: readonly ProfilePiece[], yM: number): number =>
  Math.min(Math.PI / 2, Math.asin(leanSin(inside, yM)) + CONTACT_ANGLE_RAD);

const riseFactor = (inside: readonly ProfilePiece[], yM: number): number =>
  riseFactorOf(Math.sin(reachRad(inside, yM)));

/** Solves contact = level + rise x factor(contact) by bisection, to rounding. */
function contactHeightM(inside: readonly ProfilePiece[], levelYM: number, riseM: number, mostYM: number): number {
  let lo = levelYM;
  let hi = Math.min(mostYM, levelYM + riseM * riseFactorOf(-1));
  for (let i = 0; i < 60; i++) {
    const mid = (lo + hi) / 2;
    if (mid < levelYM + riseM * riseFactor(inside, mid)) lo = mid;
    else hi = mid;
  }
  return hi;
}

/** The arc from the contact point in to the level, or undefined when it would leave the inside or pass the axis. */
function meniscusArc(inside: readonly ProfilePiece[], levelYM: number, contactYM: number): ProfilePiece | undefined {
  const wallRM = radiusAtHeightM(inside, contactYM);
  const riseM = contactYM - levelYM;
  if (wallRM === undefined || riseM <= 0) return undefined;
  const reach = reachRad(inside, contactYM);
  if (Math.sin(reach) > STEEPEST_SIN) return undefined;
  const radiusM = riseM / (1 - Math.sin(reach));
  const centre = profilePoint(wallRM - radiusM * Math.cos(reach), contactYM + radiusM * Math.sin(reach));
  if (centre.rM < radiusM * 0.1) return undefined;
  for (let i = 1; i <= 16; i++) {
    const angle = -reach + (-Math.PI / 2 + reach) * (i / 16);
    const yM = centre.yM + radiusM * Math.sin(angle);
    const insideRM = radiusAtHeightM(inside, yM);
    if (insideRM === undefined || centre.rM + radiusM * Math.cos(angle) > insideRM + 1e-12) return undefined;
  }
  return arcAbout(centre, radiusM, -reach, -Math.PI / 2);
}
