import type { Diagnostic } from '../../core/diagnostic.ts';
import { fail, ok, type Result } from '../../core/result.ts';
import { cannotMake, inMm } from '../problems.ts';
import {
  arcAbout,
  cornerTangentLengthM,
  directionAlong,
  lineBetween,
  offsetProfile,
  type ProfilePiece,
  type ProfilePoint,
  pointOnCircle,
  profilePoint,
  reverseProfile,
  roundCorner,
} from '../profile/index.ts';
import type { GlassProfile } from '../records.ts';
import { closeGlassBody, type GlassPart, type GlassResult, part } from './glassBody.ts';

export type StemmedProfile = Extract<GlassProfile, { shape: 'coupe' | 'conicalStemmed' | 'flute' | 'wine' | 'copa' }>;

/** Middle of the bowl's wall: from the axis (level there) up to the rim. Wall thickness is laid on to both sides. */
export interface BowlSpan {
  readonly bottomYM: number;
  /** End of the middle of the wall, half a wall under the top of the rim and inside its widest. */
  readonly rimRM: number;
  readonly rimYM: number;
  /** Widest radius of the middle of the wall. */
  readonly widestRM: number;
}

/** Rise of the upper side of the foot toward the stem. Invented, typical of blown stemware. */
const FOOT_SLOPE_RAD = (6 * Math.PI) / 180;

/**
 * A stemmed glass: foot with a half-round edge and a gently rising upper side, a fillet to the stem, the stem, a fillet
 * to the bowl, and the bowl as an even wall round the curve that `bowlCurve` draws, with a rounded rim. The bowl begins
 * where the fillet leaves the stem, bowlHeightM under the top; the lowest point inside lies baseThicknessM over that.
 * The fillet follows from both: it touches the stem there, and the bowl from outside.
 */
export function buildStemmedBody(
  recordId: string,
  profile: StemmedProfile,
  bowlCurve: (span: BowlSpan) => readonly ProfilePiece[],
): GlassResult {
  const problems = checkStemmedSizes(recordId, profile);
  if (problems.length > 0) return fail(problems);
  const { heightM, wallM, baseThicknessM } = profile;
  const bowlYM = heightM - profile.bowlHeightM;
  const floorYM = bowlYM + baseThicknessM;
  const middle = bowlCurve({
    bottomYM: floorYM - wallM / 2,
    rimRM: profile.rimDiameterM / 2 - wallM / 2,
    rimYM: heightM - wallM / 2,
    widestRM: (profile.bowlDiameterM ?? profile.rimDiameterM) / 2 - wallM / 2,
  });
  const outer = offsetProfile(middle, -wallM / 2);
  const inner = offsetProfile(middle, wallM / 2);
  if (!outer.ok || !inner.ok) {
    return fail([
      cannotMake(
        recordId,
        'bowl-too-tight',
        'profile.wallM',
        wallM,
        'profile.wallM is more than the bowl can bend round: make the wall thinner, or the bowl wider or higher.',
      ),
    ]);
  }
  const stemRM = profile.stemDiameterM / 2;
  const joined = joinStemToBowl(stemRM, bowlYM, outer.value);
  if (!joined) {
    return fail([
      cannotMake(
        recordId,
        'stem-misses-bowl',
        'profile.baseThicknessM',
        baseThicknessM,
        `The stem can't run into the bowl: profile.baseThicknessM must be over ${inMm(wallM)} and well under the width of the bowl, and profile.stemDiameterM less than the bowl is wide.`,
      ),
    ]);
  }
  const foot = buildFoot(recordId, profile, stemRM, bowlYM);
  if (!foot.ok) return foot;

  const last = middle[middle.length - 1];
  const up = directionAlong(last, 1);
  const outAngle = Math.atan2(-up.rM, up.yM);
  const cap = arcAbout(last.to, wallM / 2, outAngle, outAngle + Math.PI);
  const outside: GlassPart[] = [
    ...foot.value.parts,
    part('stem', lineBetween(foot.value.stemFrom, joined.fillet.from)),
    part('stem', joined.fillet),
    ...joined.bowl.map((piece) => part('outer wall', piece)),
    part('rim', cap),
  ];
  const inside = reverseProfile(inner.value).map((piece) => part('inner wall', piece));
  return closeGlassBody(recordId, outside, inside, { floorYM, rimYM: heightM });
}

interface Foot {
  readonly parts: GlassPart[];
  readonly stemFrom: ProfilePoint;
}

/** Underside, half-round edge, rising upper side, and the fillet into the stem. */
function buildFoot(
  recordId: string,
  profile: StemmedProfile,
  stemRM: number,
  stemTopYM: number,
): Result<Foot, readonly Diagnostic[]> {
  const edgeRadiusM = profile.footThicknessM / 2;
  const edgeCentre = profilePoint(profile.footDiameterM / 2 - edgeRadiusM, edgeRadiusM);
  const edge = arcAbout(edgeCentre, edgeRadiusM, -Math.PI / 2, Math.PI / 2 - FOOT_SLOPE_RAD);
  const runM = edge.to.rM - stemRM;
  const corner = profilePoint(stemRM, edge.to.yM + runM * Math.tan(FOOT_SLOPE_RAD));
  const stemM = stemTopYM - corner.yM;
  if (runM <= 0.001) {
    return fail([
      cannotMake(
        recordId,
        'foot-too-small',
        'profile.footDiameterM',
        profile.footDiameterM,
        `profile.footDiameterM is hardly wider than the stem: use ${inMm(profile.stemDiameterM + profile.footThicknessM + 0.01)} or more.`,
      ),
    ]);
  }
  if (stemM <= 0.002) {
    return fail([
      cannotMake(
        recordId,
        'no-stem-left',
        'profile.bowlHeightM',
        profile.bowlHeightM,
        `profile.bowlHeightM leaves no stem: keep it under ${inMm(Math.max(0, profile.heightM - corner.yM - 0.002))}, or raise profile.heightM.`,
      ),
    ]);
  }
  const stemTop = profilePoint(stemRM, stemTopYM);
  const legM = Math.min(0.9 * Math.hypot(runM, corner.yM - edge.to.yM), 0.45 * stemM);
  const filletM = Math.min(0.015, legM / cornerTangentLengthM(edge.to, corner, stemTop, 1));
  const fillet = roundCorner(edge.to, corner, stemTop, filletM);
  return ok({
    parts: [
      part('underside', lineBetween(profilePoint(0, 0), edge.from)),
      part('foot edge', edge),
      part('foot', lineBetween(edge.to, fillet.from)),
      part('foot', fillet),
    ],
    stemFrom: fillet.to,
  });
}

/**
 * The fillet that touches the upright stem at its top and the bowl from outside, and what is left of the bowl's outer
 * wall above it. With p the fillet's radius its centre is (stem + p, top of stem): for an arc of the bowl (centre C,
 * radius R) the centres are R + p apart; for a straight wall the centre is p from it. Both are linear in p.
 */
function joinStemToBowl(
  stemRM: number,
  stemTopYM: number,
  outer: readonly ProfilePiece[],
): { fillet: ProfilePiece; bowl: ProfilePiece[] } | undefined {
  for (const [i, piece] of outer.entries()) {
    if (piece.type === 'arc') {
      const dr = stemRM - piece.centre.rM;
      const dy = stemTopYM - piece.centre.yM;
      const filletM = (piece.radiusM ** 2 - dr * dr - dy * dy) / (2 * (dr - piece.radiusM));
      if (!(filletM > 1e-5)) continue;
      const centre = profilePoint(stemRM + filletM, stemTopYM);
      const toFillet = Math.atan2(centre.yM - piece.centre.yM, centre.rM - piece.centre.rM);
      if (toFillet <= piece.angle0Rad || toFillet >= piece.angle1Rad) continue;
      return {
        // Clockwise from the stem side (180 degrees) to where the bowl's centre lies.
        fillet: arcAbout(centre, filletM, Math.PI, toFillet + Math.PI),
        bowl: [
          { ...piece, from: pointOnCircle(piece.centre, piece.radiusM, toFillet), angle0Rad: toFillet },
          ...outer.slice(i + 1),
        ],
      };
    }
    const u = directionAlong(piece, 0);
    const out = { rM: u.yM, yM: -u.rM };
    const awayM = (stemRM - piece.from.rM) * out.rM + (stemTopYM - piece.from.yM) * out.yM;
    const filletM = awayM / (1 - out.rM);
    if (!(filletM > 1e-5)) continue;
    const centre = profilePoint(stemRM + filletM, stemTopYM);
    const touch = profilePoint(centre.rM - out.rM * filletM, centre.yM - out.yM * filletM);
    const alongM = (touch.rM - piece.from.rM) * u.rM + (touch.yM - piece.from.yM) * u.yM;
    const lengthM = Math.hypot(piece.to.rM - piece.from.rM, piece.to.yM - piece.from.yM);
    if (alongM < 0 || alongM >= lengthM) continue;
    return {
      fillet: arcAbout(centre, filletM, Math.PI, Math.atan2(-out.yM, -out.rM)),
      bowl: [{ ...piece, from: touch }, ...outer.slice(i + 1)],
    };
  }
  return undefined;
}

function checkStemmedSizes(recordId: string, p: StemmedProfile): Diagnostic[] {
  const problems: Diagnostic[] = [];
  const bad = (code: string, field: string, value: unknown, message: string) =>
    problems.push(cannotMake(recordId, code, field, value, message));
  const rimRM = p.rimDiameterM / 2;
  if (p.wallM > rimRM * 0.5) {
    bad(
      'wall-thicker-than-glass',
      'profile.wallM',
      p.wallM,
      `profile.wallM leaves no inside: keep it under ${inMm(rimRM * 0.5)}.`,
    );
  }
  if (p.bowlHeightM >= p.heightM) {
    bad(
      'bowl-over-height',
      'profile.bowlHeightM',
      p.bowlHeightM,
      `profile.bowlHeightM is more than the whole glass: keep it under ${inMm(p.heightM)}.`,
    );
  }
  if (p.baseThicknessM < p.wallM) {
    bad(
      'base-thinner-than-wall',
      'profile.baseThicknessM',
      p.baseThicknessM,
      `profile.baseThicknessM is under the wall: use ${inMm(p.wallM * 1.5)} or more.`,
    );
  }
  if (p.bowlHeightM - p.baseThicknessM < p.wallM + 0.005) {
    bad(
      'base-fills-glass',
      'profile.baseThicknessM',
      p.baseThicknessM,
      `profile.baseThicknessM leaves no bowl: keep it under ${inMm(Math.max(0, p.bowlHeightM - p.wallM - 0.005))}.`,
    );
  }
  if (p.bowlDiameterM !== undefined && p.bowlDiameterM < p.rimDiameterM) {
    bad(
      'bowl-narrower-than-rim',
      'profile.bowlDiameterM',
      p.bowlDiameterM,
      `profile.bowlDiameterM is the widest part of the bowl: use ${inMm(p.rimDiameterM)} or more, or leave it out.`,
    );
  }
  if (p.stemDiameterM / 2 >= rimRM * 0.6) {
    bad(
      'stem-too-thick',
      'profile.stemDiameterM',
      p.stemDiameterM,
      `profile.stemDiameterM is nearly as wide as the rim: keep it under ${inMm(rimRM * 1.2)}.`,
    );
  }
  return problems;
}
