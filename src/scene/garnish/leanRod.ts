import type { Vec3 } from '../../core/vec3.ts';
import { type GlassBody, piecesOf } from '../glassware/glassBody.ts';
import { levelDirection } from '../parts/solidPart.ts';
import { distanceToProfileM, radiusAtHeightM } from '../profile/index.ts';

/** Between a leaning thing and the glass. */
export const LEAN_CLEAR_M = 0.0002;

export interface LeaningRod {
  /** Middle of the lower end, and unit direction up along the rod; foot of the glass at y = 0. */
  readonly footM: Vec3;
  readonly up: Vec3;
  /** Room to the glass at a distance up the rod. */
  roomM(alongM: number): number;
}

export interface Rod {
  readonly radiusM: number;
  readonly lengthM: number;
  /** Radius of a ball at its upper end. */
  readonly headM?: number;
}

/**
 * Ways in which a rod can stand in a vessel and lean on the rim at an azimuth: its foot on the floor or the far wall,
 * turned over as far as it goes. In the upright plane through the axis the rod is a line that keeps its radius from the
 * inside and the rim (one that is too short to reach the rim leans on the wall); the foot is tried at nine places. The
 * way in which its middle lies lowest comes first: let go, it slides down to that.
 */
export function leanRods(body: GlassBody, rod: Rod, azimuthRad: number): LeaningRod[] {
  const roomAt = roomInPlane(body);
  const key = JSON.stringify([body.inside, body.rimYM, rod]);
  let leans = remembered.get(key);
  if (leans === undefined) {
    leans = findLeans(body, rod, roomAt);
    if (remembered.size >= REMEMBERED) remembered.delete(remembered.keys().next().value ?? key);
    remembered.set(key, leans);
  }
  const out = levelDirection(azimuthRad);
  return leans.map(({ s, yM, lean }) => {
    const [sin, cos] = [Math.sin(lean), Math.cos(lean)];
    return {
      footM: [out[0] * s, yM, out[2] * s],
      up: [out[0] * sin, cos, out[2] * sin],
      roomM: (alongM) => roomAt(s + alongM * sin, yM + alongM * cos),
    };
  });
}

interface Lean {
  /** Where the foot stands: distance from the axis toward the rim that is leaned on, and height. */
  readonly s: number;
  readonly yM: number;
  readonly lean: number;
}

/** The search takes some milliseconds and is asked for at every rebuild. */
const remembered = new Map<string, readonly Lean[]>();
const REMEMBERED = 32;

type Room = (s: number, yM: number) => number;

/** Distance to inside and rim in the upright plane, negative in the glass below the rim. */
function roomInPlane(body: GlassBody): Room {
  const inside = piecesOf(body.inside);
  const walls = [...inside, ...piecesOf(body.outside.filter((p) => p.role === 'rim'))];
  const topYM = inside[0].from.yM;
  return (s, yM) => {
    const wallRM = radiusAtHeightM(inside, Math.min(yM, topYM));
    if (yM <= topYM && (wallRM === undefined || Math.abs(s) >= wallRM)) return -1;
    return distanceToProfileM(walls, { rM: Math.abs(s), yM });
  };
}

function findLeans(body: GlassBody, rod: Rod, roomAt: Room): Lean[] {
  const inside = piecesOf(body.inside);
  const clearM = rod.radiusM + LEAN_CLEAR_M;
  const topYM = inside[0].from.yM;
  const leans: Lean[] = [];
  const widestRM = inside.reduce((most, p) => Math.max(most, p.from.rM, p.to.rM), 0);
  for (let k = 0; k <= 8; k++) {
    const s = (-widestRM * k) / 8;
    const yM = lowestClear((y) => roomAt(s, y), clearM, body.floorYM, topYM);
    if (yM === undefined) continue;
    const lean = mostLean((angle) => isClear(roomAt, { s, yM, lean: angle }, rod, body.rimYM));
    if (lean !== undefined) leans.push({ s, yM, lean });
  }
  const middleYM = ({ yM, lean }: Lean): number => yM + (rod.lengthM / 2) * Math.cos(lean);
  return leans.sort((a, b) => middleYM(a) - middleYM(b));
}

/** Least height over the floor at which there is room. */
function lowestClear(room: (yM: number) => number, clearM: number, floorYM: number, topYM: number): number | undefined {
  const steps = 60;
  for (let i = 0; i <= steps; i++) {
    const hi = floorYM + ((topYM - floorYM) * i) / steps;
    if (room(hi) < clearM) continue;
    let lo = hi - (topYM - floorYM) / steps;
    let good = hi;
    for (let k = 0; k < 20; k++) {
      const mid = (lo + good) / 2;
      if (room(mid) >= clearM) good = mid;
      else lo = mid;
    }
    return good;
  }
  return undefined;
}

function isClear(room: Room, { s, yM, lean }: Lean, { radiusM, lengthM, headM }: Rod, rimYM: number): boolean {
  const [sin, cos] = [Math.sin(lean), Math.cos(lean)];
  const clearM = radiusM + LEAN_CLEAR_M;
  if (headM !== undefined && room(s + lengthM * sin, yM + lengthM * cos) < headM + LEAN_CLEAR_M) return false;
  const toRimM = Math.min(lengthM, (rimYM + clearM - yM) / cos);
  const steps = 36;
  for (let i = 0; i <= steps; i++) {
    const d = (toRimM * i) / steps;
    if (room(s + d * sin, yM + d * cos) < clearM - 1e-9) return false;
  }
  return true;
}

/** Greatest lean under 80 degrees for which the rod stays clear. */
function mostLean(clear: (lean: number) => boolean): number | undefined {
  const most = (80 * Math.PI) / 180;
  const steps = 28;
  const found = Array.from({ length: steps + 1 }, (_, i) => (most * i) / steps).filter(clear);
  if (found.length === 0) return undefined;
  let good = found[found.length - 1];
  let bad = good + most / steps;
  for (let k = 0; k < 20; k++) {
    const mid = (good + bad) / 2;
    if (clear(mid)) good = mid;
    else bad = mid;
  }
  return good;
}
