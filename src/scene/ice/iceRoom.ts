import { type GlassBody, piecesOf } from '../glassware/glassBody.ts';
import {
  directionAlong,
  distanceToProfileM,
  lineBetween,
  type ProfilePiece,
  profilePoint,
  radiusAtHeightM,
  splitProfileAtHeight,
} from '../profile/index.ts';

/**
 * Where the centre of a ball of ice may be: for each radius from the axis, the least and greatest height at which the
 * ball keeps clear of the glass. The inside is convex, so this is one interval, and a rounded cube is clear when the
 * balls at its eight corners are.
 */
export interface IceRoom {
  /** Largest radius at which there is any. */
  readonly widestRM: number;
  /** Undefined where no height will do. Rounded to the safe side. */
  heightsAt(rM: number): { readonly loYM: number; readonly hiYM: number } | undefined;
}

const STEPS = 128;

/** Room for balls of `ballRadiusM` inside a vessel, up to `ceilingYM` (which may be over the rim). */
export function measureIceRoom(body: GlassBody, ballRadiusM: number, ceilingYM: number): IceRoom {
  const outline = roomOutline(body, ceilingYM);
  const clearance = (rM: number, yM: number): number => {
    const wallRM = radiusAtHeightM(outline, yM);
    return wallRM === undefined || rM >= wallRM ? -1 : distanceToProfileM(outline, { rM, yM }) - ballRadiusM;
  };
  const widest = outline.reduce((most, p) => Math.max(most, p.from.rM, p.to.rM, bulgeRM(p)), 0);
  const topYM = outline[0].from.yM;
  const intervals: ({ loYM: number; hiYM: number } | undefined)[] = [];
  for (let i = 0; i <= STEPS; i++) {
    const rM = (widest * i) / STEPS;
    intervals.push(freeHeights((yM) => clearance(rM, yM), body.floorYM, topYM));
    if (!intervals[i]) break;
  }
  const free = intervals.filter((interval) => interval !== undefined).length;
  return {
    widestRM: (widest * Math.max(0, free - 1)) / STEPS,
    heightsAt(rM) {
      // The interval only narrows outward, so the next larger radius is safe for this one.
      return intervals[Math.ceil((rM / widest) * STEPS)];
    },
  };
}

/** Profile of the room from its top down to the axis: the convex part of the inside, carried on above the rim. */
function roomOutline(body: GlassBody, ceilingYM: number): ProfilePiece[] {
  const inside = piecesOf(splitProfileAtHeight(body.inside, Math.min(body.convexUpToYM, ceilingYM)).below);
  const top = inside[0].from;
  if (ceilingYM <= top.yM + 1e-9) return inside;
  // Over the rim ice may not lean out past it; where the wall closes in, it goes on closing in.
  const down = directionAlong(inside[0], 0);
  const inward = Math.min(0, -down.rM / -down.yM);
  const riseM = Math.min(ceilingYM - top.yM, inward < 0 ? (0.9 * top.rM) / -inward : Number.POSITIVE_INFINITY);
  return [lineBetween(profilePoint(top.rM + inward * riseM, top.yM + riseM), top), ...inside];
}

const bulgeRM = (piece: ProfilePiece): number =>
  piece.type === 'arc' && piece.angle0Rad * piece.angle1Rad < 0 ? piece.centre.rM + piece.radiusM : 0;

/** Interval on which a concave function is not negative, from inside; undefined when it never is. */
function freeHeights(
  f: (yM: number) => number,
  loYM: number,
  hiYM: number,
): { loYM: number; hiYM: number } | undefined {
  let best = Number.NEGATIVE_INFINITY;
  let bestYM = loYM;
  const n = 32;
  for (let i = 1; i < n; i++) {
    const yM = loYM + ((hiYM - loYM) * i) / n;
    const value = f(yM);
    if (value > best) {
      best = value;
      bestYM = yM;
    }
  }
  if (best < 0) return undefined;
  return { loYM: edgeOf(f, bestYM, loYM), hiYM: edgeOf(f, bestYM, hiYM) };
}

function edgeOf(f: (yM: number) => number, goodYM: number, badYM: number): number {
  let good = goodYM;
  let bad = badYM;
  for (let i = 0; i < 26; i++) {
    const mid = (good + bad) / 2;
    if (f(mid) >= 0) good = mid;
    else bad = mid;
  }
  return good;
}
