import type { Diagnostic } from '../../core/diagnostic.ts';
import { fail, type Result } from '../../core/result.ts';
import { cannotMake } from '../problems.ts';
import {
  directionAlong,
  findSelfCrossing,
  type ProfilePiece,
  pieceLengthM,
  piecesFromCorners,
  pointAlong,
} from '../profile/index.ts';
import type { GlassProfile } from '../records.ts';
import { closeGlassBody, type GlassPart, type GlassResult, part } from './glassBody.ts';

export type OwnProfile = Extract<GlassProfile, { shape: 'ownProfile' }>;

const REMEMBERED = 16;
const built = new Map<string, GlassResult>();

/**
 * A vessel from a drawn section: points from the axis under the foot, up the outside, over the rim and down the inside to
 * the axis. They are scaled to heightM and stood on height 0. Checked: it begins and ends on the axis and stays off it
 * between, does not cross itself, runs counter-clockwise, has a rim with a width, and an inside that only ever falls
 * toward the axis (so that a drink has one surface). Checks take some milliseconds: the last few are remembered.
 */
export function buildOwnBody(recordId: string, profile: OwnProfile): GlassResult {
  const key = JSON.stringify([recordId, profile]);
  const known = built.get(key);
  if (known) return known;
  const result = buildFresh(recordId, profile);
  if (built.size >= REMEMBERED) built.delete(built.keys().next().value ?? key);
  built.set(key, result);
  return result;
}

function buildFresh(recordId: string, profile: OwnProfile): GlassResult {
  const pieces = scaledPieces(profile);
  if (!pieces.ok) return refuse(recordId, profile, 'profile-not-drawable', pieces.error);
  const wrong = findFault(pieces.value);
  if (wrong) return refuse(recordId, profile, ...wrong);
  const topYM = profile.heightM;
  const upright = pieces.value.flatMap((piece) => splitAtTop(piece, topYM));
  const rim = rimRange(upright, topYM);
  if (!rim) {
    return refuse(
      recordId,
      profile,
      'rim-without-width',
      'the rim comes to an edge: give its top a level side or a rounding',
    );
  }
  const outsideWalls = upright.slice(0, rim.from);
  const insideWalls = upright.slice(rim.to + 1);
  const rising = insideWalls.findIndex((piece) => rises(piece));
  if (rising >= 0) {
    return refuse(
      recordId,
      profile,
      'inside-rises',
      'the inside rises again on its way to the axis: it must fall all the way, or a drink would lie in two pools',
    );
  }
  const outside: GlassPart[] = [
    ...outsideWalls.map((piece, i) => part(isUnderside(outsideWalls, i) ? 'underside' : 'outer wall', piece)),
    ...upright.slice(rim.from, rim.to + 1).map((piece) => part('rim', piece)),
  ];
  const inside = insideWalls.map((piece) => part(isLevel(piece) ? 'inner floor' : 'inner wall', piece));
  const floorYM = insideWalls[insideWalls.length - 1].to.yM;
  return closeGlassBody(
    recordId,
    outside,
    inside,
    { floorYM, rimYM: topYM, convexUpToYM: convexUpTo(insideWalls) },
    { field: 'profile.points', mend: 'draw more room between outside and inside in profile.points.' },
  );
}

const refuse = (recordId: string, profile: OwnProfile, code: string, fault: string): Result<never, Diagnostic[]> =>
  fail([
    cannotMake(
      recordId,
      code,
      'profile.points',
      profile.points.length,
      `profile.points can't make a glass: ${fault}. Points are counted from 0.`,
    ),
  ]);

/** The drawn pieces in metres: lowest point at 0, highest at heightM. */
function scaledPieces(profile: OwnProfile): Result<ProfilePiece[], string> {
  const { points } = profile;
  const last = points.length - 1;
  const most = Math.max(...points.map((p) => Math.max(p.r, Math.abs(p.y))));
  if (!(most > 0)) return fail('all points lie in one place');
  if (points[0].r > 1e-6 * most || points[last].r > 1e-6 * most)
    return fail('the first and the last point must lie on the axis, at r 0');
  const scaledBy = (scale: number, dropM: number) =>
    piecesFromCorners(
      points.map(({ r, y, round, bulge }, i) => ({
        rM: i === 0 || i === last ? 0 : r * scale,
        yM: y * scale - dropM,
        ...(round === undefined ? {} : { roundM: round * scale }),
        ...(bulge === undefined ? {} : { bulge }),
      })),
    );
  // Once at about the right size to find the true span, arcs included, then exactly.
  const rough = scaledBy(1 / most, 0);
  if (!rough.ok) return rough;
  const [lo, hi] = heightSpan(rough.value);
  if (!(hi - lo > 1e-6)) return fail('it has no height');
  const scale = profile.heightM / ((hi - lo) * most);
  return scaledBy(scale, lo * most * scale);
}

function heightSpan(pieces: readonly ProfilePiece[]): [number, number] {
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (const piece of pieces) {
    const ys = [piece.from.yM, piece.to.yM];
    if (piece.type === 'arc') {
      if (passes(piece, Math.PI / 2)) ys.push(piece.centre.yM + piece.radiusM);
      if (passes(piece, -Math.PI / 2)) ys.push(piece.centre.yM - piece.radiusM);
    }
    lo = Math.min(lo, ...ys);
    hi = Math.max(hi, ...ys);
  }
  return [lo, hi];
}

/** Does the arc's turn pass this direction strictly between its ends? */
function passes(piece: ProfilePiece, angleRad: number): boolean {
  if (piece.type !== 'arc') return false;
  const turn = 2 * Math.PI;
  const lo = Math.min(piece.angle0Rad, piece.angle1Rad);
  const past = (((angleRad - lo) % turn) + turn) % turn;
  return past > 1e-9 && past < Math.abs(piece.angle1Rad - piece.angle0Rad) - 1e-9;
}

function findFault(pieces: readonly ProfilePiece[]): readonly [code: string, fault: string] | undefined {
  for (const [i, piece] of pieces.entries()) {
    const inner = i === 0 ? 1 : 0;
    const ends = i === pieces.length - 1 ? 7 : 8;
    for (let k = inner; k <= ends; k++) {
      if (pointAlong(piece, k / 8).rM < 1e-6)
        return ['profile-on-axis', 'it touches the axis between its first and last point'];
    }
    if (passes(piece, Math.PI) && piece.type === 'arc' && piece.centre.rM - piece.radiusM < 1e-6)
      return ['profile-on-axis', 'it touches the axis between its first and last point'];
  }
  const crossing = findSelfCrossing(pieces);
  if (crossing) {
    const at = pieces[crossing[1]].from;
    return [
      'profile-crosses-itself',
      `the line crosses itself near r ${(at.rM * 1000).toFixed(1)} mm, height ${(at.yM * 1000).toFixed(1)} mm`,
    ];
  }
  if (signedArea(pieces) <= 0) {
    return [
      'profile-runs-backward',
      'the points run the wrong way round: begin on the axis under the foot and go up the outside first',
    ];
  }
  return undefined;
}

/** Twice the area between the walk and the axis, positive counter-clockwise; arcs by 16 chords, good for the sign. */
function signedArea(pieces: readonly ProfilePiece[]): number {
  let sum = 0;
  for (const piece of pieces) {
    const steps = piece.type === 'arc' ? 16 : 1;
    for (let k = 0; k < steps; k++) {
      const a = pointAlong(piece, k / steps);
      const b = pointAlong(piece, (k + 1) / steps);
      sum += a.rM * b.yM - b.rM * a.yM;
    }
  }
  return sum;
}

/** Parts an arc at its highest point, so that outside and inside part there. */
const splitAtTop = (piece: ProfilePiece, topYM: number): ProfilePiece[] =>
  piece.type === 'arc' && passes(piece, Math.PI / 2) && piece.centre.yM + piece.radiusM > topYM - 1e-7
    ? splitArc(piece, Math.PI / 2)
    : [piece];

function splitArc(piece: Extract<ProfilePiece, { type: 'arc' }>, angleRad: number): ProfilePiece[] {
  const turn = 2 * Math.PI;
  const lo = Math.min(piece.angle0Rad, piece.angle1Rad);
  const angle = lo + ((((angleRad - lo) % turn) + turn) % turn);
  const cut = {
    rM: piece.centre.rM + piece.radiusM * Math.cos(angle),
    yM: piece.centre.yM + piece.radiusM * Math.sin(angle),
  };
  return [
    { ...piece, to: cut, angle1Rad: angle },
    { ...piece, from: cut, angle0Rad: angle },
  ];
}

/** Roundings up to this share of the height belong to the rim. */
const RIM_RADIUS_SHARE = 0.04;

/** The run of pieces that makes the rim: what lies at the top, and the small roundings that lead up to it. */
function rimRange(pieces: readonly ProfilePiece[], topYM: number): { from: number; to: number } | undefined {
  const atTop = (piece: ProfilePiece): boolean =>
    (Math.abs(piece.from.yM - topYM) < 1e-7 || Math.abs(piece.to.yM - topYM) < 1e-7) &&
    (isLevel(piece) || isSmallLeftArc(piece, topYM));
  const from = pieces.findIndex(atTop);
  if (from < 0) return undefined;
  let to = from;
  while (to + 1 < pieces.length && atTop(pieces[to + 1])) to++;
  let first = from;
  while (first > 1 && isSmallLeftArc(pieces[first - 1], topYM)) first--;
  while (to + 2 < pieces.length && isSmallLeftArc(pieces[to + 1], topYM)) to++;
  return first > 0 && to + 1 < pieces.length ? { from: first, to } : undefined;
}

const isSmallLeftArc = (piece: ProfilePiece, heightM: number): boolean =>
  piece.type === 'arc' && piece.angle1Rad > piece.angle0Rad && piece.radiusM <= RIM_RADIUS_SHARE * heightM;

const isLevel = (piece: ProfilePiece): boolean => piece.type === 'line' && Math.abs(piece.to.yM - piece.from.yM) < 1e-9;

/** Does any part of the piece climb? */
function rises(piece: ProfilePiece): boolean {
  const slack = 1e-9;
  for (let k = 0; k < 16; k++) {
    if (pointAlong(piece, (k + 1) / 16).yM > pointAlong(piece, k / 16).yM + slack) return true;
  }
  return false;
}

/** The first pieces, for as long as the walk goes more outward than up. */
function isUnderside(pieces: readonly ProfilePiece[], i: number): boolean {
  return pieces.slice(0, i + 1).every((piece) => {
    const u = directionAlong(piece, 0.5);
    return u.rM > Math.abs(u.yM);
  });
}

/** Height up to which the room inside is convex: walked down, it only turns right (toward the axis). */
function convexUpTo(inside: readonly ProfilePiece[]): number {
  for (let i = inside.length - 1; i >= 0; i--) {
    const piece = inside[i];
    if (piece.type === 'arc' && piece.angle1Rad > piece.angle0Rad && pieceLengthM(piece) > 1e-9) return piece.to.yM;
    const before = inside[i - 1];
    if (!before) break;
    const u = directionAlong(before, 1);
    const v = directionAlong(piece, 0);
    if (u.rM * v.yM - u.yM * v.rM > 1e-7) return piece.from.yM;
  }
  return inside[0].from.yM;
}
