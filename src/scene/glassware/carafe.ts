import type { Diagnostic } from '../../core/diagnostic.ts';
import { fail } from '../../core/result.ts';
import { cannotMake, inMm } from '../problems.ts';
import {
  arcAbout,
  directionAlong,
  lineBetween,
  offsetProfile,
  type ProfilePiece,
  profilePoint,
  reverseProfile,
} from '../profile/index.ts';
import type { GlassProfile } from '../records.ts';
import { shoulderCurve } from './bottle.ts';
import { ovalBowl } from './bowl.ts';
import { closeGlassBody, type GlassPart, type GlassResult, part } from './glassBody.ts';

export type CarafeProfile = Extract<GlassProfile, { shape: 'carafe' }>;

/** How full the oval between foot and belly is. Invented, typical of blown carafes. */
const BELLY_BLUNTNESS = 0.6;

/**
 * Carafe: a flat foot, an oval up to the belly, two arcs in to the neck and one that flares out to the rounded lip. The
 * wall is even from the belly up; below it the inside has an oval of its own, so that the base may be thicker.
 */
export function buildCarafeBody(recordId: string, profile: CarafeProfile): GlassResult {
  const problems = checkCarafeSizes(recordId, profile);
  if (problems.length > 0) return fail(problems);
  const { heightM, wallM, baseThicknessM: floorYM, bodyHeightM: bellyYM, neckHeightM: neckYM } = profile;
  const half = wallM / 2;
  const bodyRM = profile.bodyDiameterM / 2;
  const footRM = profile.footDiameterM / 2;
  const neckRM = profile.neckDiameterM / 2 - half;
  const middle = [
    ...shoulderCurve(bodyRM - half, bellyYM, neckRM, neckYM),
    flaringArc(neckRM, neckYM, profile.rimDiameterM / 2 - half, heightM - half),
  ];
  const outer = offsetProfile(middle, -half);
  const inner = offsetProfile(middle, half);
  if (!outer.ok || !inner.ok) {
    return fail([
      cannotMake(
        recordId,
        'neck-too-tight',
        'profile.wallM',
        wallM,
        'profile.wallM is more than the neck can bend round: make the wall thinner, or the carafe higher.',
      ),
    ]);
  }
  const floorRM = Math.max(0.2 * footRM, footRM - wallM);
  const last = middle[middle.length - 1];
  const up = directionAlong(last, 1);
  const outAngle = Math.atan2(-up.rM, up.yM);
  const outside: GlassPart[] = [
    part('underside', lineBetween(profilePoint(0, 0), profilePoint(footRM, 0))),
    ...ovalFrom(footRM, 0, bodyRM, bellyYM).map((piece) => part('outer wall', piece)),
    ...outer.value.map((piece) => part('outer wall', piece)),
    part('rim', arcAbout(last.to, half, outAngle, outAngle + Math.PI)),
  ];
  const inside: GlassPart[] = [
    ...reverseProfile(inner.value).map((piece) => part('inner wall', piece)),
    ...reverseProfile(ovalFrom(floorRM, floorYM, bodyRM - wallM, bellyYM)).map((piece) => part('inner wall', piece)),
    part('inner floor', lineBetween(profilePoint(floorRM, floorYM), profilePoint(0, floorYM))),
  ];
  return closeGlassBody(recordId, outside, inside, { floorYM, rimYM: heightM, convexUpToYM: bellyYM });
}

/** Oval that begins level at (fromRM, fromYM) and stands upright at (toRM, toYM). */
const ovalFrom = (fromRM: number, fromYM: number, toRM: number, toYM: number): ProfilePiece[] =>
  ovalBowl(fromYM, toRM - fromRM, toYM, BELLY_BLUNTNESS).map((piece) =>
    piece.type === 'arc'
      ? arcAbout(
          profilePoint(piece.centre.rM + fromRM, piece.centre.yM),
          piece.radiusM,
          piece.angle0Rad,
          piece.angle1Rad,
        )
      : piece,
  );

/** Arc from upright at (fromRM, fromYM) out to (toRM, toYM); straight when the radii agree. */
function flaringArc(fromRM: number, fromYM: number, toRM: number, toYM: number): ProfilePiece {
  const d = toRM - fromRM;
  const h = toYM - fromYM;
  if (d < 1e-7) return lineBetween(profilePoint(fromRM, fromYM), profilePoint(fromRM, toYM));
  const radiusM = (d * d + h * h) / (2 * d);
  return arcAbout(profilePoint(fromRM + radiusM, fromYM), radiusM, Math.PI, Math.PI - Math.asin(h / radiusM));
}

function checkCarafeSizes(recordId: string, p: CarafeProfile): Diagnostic[] {
  const problems: Diagnostic[] = [];
  const bad = (code: string, field: keyof CarafeProfile, mend: string) =>
    problems.push(cannotMake(recordId, code, `profile.${field}`, p[field], `profile.${field} ${mend}`));
  if (p.footDiameterM > p.bodyDiameterM - 0.004) {
    bad(
      'foot-wider-than-body',
      'footDiameterM',
      `must be less than the belly: keep it under ${inMm(Math.max(0, p.bodyDiameterM - 0.004))}.`,
    );
  }
  if (p.neckDiameterM > p.bodyDiameterM - 0.004) {
    bad(
      'neck-wider-than-body',
      'neckDiameterM',
      `must be less than the belly: keep it under ${inMm(Math.max(0, p.bodyDiameterM - 0.004))}.`,
    );
  }
  if (p.rimDiameterM < p.neckDiameterM) {
    bad('rim-narrower-than-neck', 'rimDiameterM', `must not be under the neck: use ${inMm(p.neckDiameterM)} or more.`);
  }
  if (p.wallM > p.neckDiameterM * 0.3) {
    bad('wall-thicker-than-glass', 'wallM', `closes the neck: keep it under ${inMm(p.neckDiameterM * 0.3)}.`);
  }
  if (p.baseThicknessM > p.bodyHeightM - 0.005) {
    bad(
      'base-fills-glass',
      'baseThicknessM',
      `reaches the belly: keep it under ${inMm(Math.max(0, p.bodyHeightM - 0.005))}.`,
    );
  }
  if (p.baseThicknessM < p.wallM) {
    bad('base-thinner-than-wall', 'baseThicknessM', `is under the wall: use ${inMm(p.wallM)} or more.`);
  }
  if (p.neckHeightM < p.bodyHeightM + 0.01) {
    bad('neck-under-body', 'neckHeightM', `must be over the belly: use ${inMm(p.bodyHeightM + 0.01)} or more.`);
  }
  if (p.neckHeightM > p.heightM - p.wallM - 0.002) {
    bad(
      'no-lip-left',
      'neckHeightM',
      `leaves no lip: keep it under ${inMm(Math.max(0, p.heightM - p.wallM - 0.002))}.`,
    );
  }
  if ((p.rimDiameterM - p.neckDiameterM) / 2 > 0.9 * (p.heightM - p.neckHeightM)) {
    bad('lip-too-flat', 'rimDiameterM', 'flares too far for so short a lip: make it narrower, or the neck lower.');
  }
  return problems;
}
