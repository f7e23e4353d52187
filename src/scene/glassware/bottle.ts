import type { Diagnostic } from '../../core/diagnostic.ts';
import { fail } from '../../core/result.ts';
import { cannotMake, inMm } from '../problems.ts';
import {
  arcAbout,
  lineBetween,
  offsetProfile,
  type ProfilePiece,
  profilePoint,
  reverseProfile,
  roundCorner,
  splitProfileAtHeight,
} from '../profile/index.ts';
import type { GlassProfile } from '../records.ts';
import { closeGlassBody, type GlassPart, type GlassResult, part } from './glassBody.ts';

export type BottleProfile = Extract<GlassProfile, { shape: 'bottle' }>;

/**
 * Bottle: an upright body, a shoulder that rounds in and a neck curve that rounds up again (two arcs, tangent to each
 * other, to body and to neck), a straight neck with a rounded mouth, and a closed flat base. Hollow, with an even wall.
 */
export function buildBottleBody(recordId: string, profile: BottleProfile): GlassResult {
  const problems = checkBottleSizes(recordId, profile);
  if (problems.length > 0) return fail(problems);
  const { heightM, wallM, baseThicknessM: floorYM, shoulderHeightM } = profile;
  const bodyRM = profile.bodyDiameterM / 2;
  const neckRM = profile.neckDiameterM / 2;
  const neckYM = heightM - profile.neckHeightM;
  const mouthYM = heightM - wallM / 2;

  const footM = Math.min(0.006, bodyRM * 0.25, shoulderHeightM * 0.4);
  const foot = roundCorner(profilePoint(0, 0), profilePoint(bodyRM, 0), profilePoint(bodyRM, shoulderHeightM), footM);
  const rise: ProfilePiece[] = [
    lineBetween(foot.to, profilePoint(bodyRM, shoulderHeightM)),
    ...shoulderCurve(bodyRM, shoulderHeightM, neckRM, neckYM),
    lineBetween(profilePoint(neckRM, neckYM), profilePoint(neckRM, mouthYM)),
  ];
  const inner = offsetProfile(rise, wallM);
  if (!inner.ok) {
    return fail([
      cannotMake(
        recordId,
        'shoulder-too-tight',
        'profile.wallM',
        wallM,
        'profile.wallM is more than the shoulder can bend round: make the wall thinner, or start the shoulder lower.',
      ),
    ]);
  }
  const innerRM = bodyRM - wallM;
  const floorM = Math.min(0.006, innerRM * 0.4, (shoulderHeightM - floorYM) * 0.5);
  const fillet = roundCorner(
    profilePoint(innerRM, shoulderHeightM),
    profilePoint(innerRM, floorYM),
    profilePoint(0, floorYM),
    floorM,
  );
  const downTo = reverseProfile(
    splitProfileAtHeight(
      inner.value.map((piece) => ({ piece })),
      shoulderHeightM,
    ).above.map((p) => p.piece),
  );
  const outside: GlassPart[] = [
    part('underside', lineBetween(profilePoint(0, 0), foot.from)),
    part('foot edge', foot),
    ...rise.map((piece) => part('outer wall', piece)),
    part('rim', arcAbout(profilePoint(neckRM - wallM / 2, mouthYM), wallM / 2, 0, Math.PI)),
  ];
  const inside: GlassPart[] = [
    ...downTo.map((piece) => part('inner wall', piece)),
    part('inner wall', lineBetween(profilePoint(innerRM, shoulderHeightM), fillet.from)),
    part('inner floor', fillet),
    part('inner floor', lineBetween(fillet.to, profilePoint(0, floorYM))),
  ];
  return closeGlassBody(recordId, outside, inside, { floorYM, rimYM: heightM, convexUpToYM: shoulderHeightM });
}

/**
 * Two arcs from upright at the body to upright at the neck. Each turns by the same angle t, so their radii a and b obey
 * (a + b)(1 - cos t) = width, (a + b) sin t = height. Where the curve is wider than high, two quarter circles with a
 * level ring between them.
 */
export function shoulderCurve(bodyRM: number, bodyYM: number, neckRM: number, neckYM: number): ProfilePiece[] {
  const widthM = bodyRM - neckRM;
  const heightM = neckYM - bodyYM;
  if (heightM < widthM) {
    const quarter = heightM / 2;
    const shoulder = arcAbout(profilePoint(bodyRM - quarter, bodyYM), quarter, 0, Math.PI / 2);
    const neck = arcAbout(profilePoint(neckRM + quarter, neckYM), quarter, -Math.PI / 2, -Math.PI);
    return [shoulder, lineBetween(shoulder.to, neck.from), neck];
  }
  const sumM = (widthM ** 2 + heightM ** 2) / (2 * widthM);
  const turn = Math.asin(Math.min(1, heightM / sumM));
  const shoulderM = Math.min(0.6 * sumM, Math.max(bodyRM, 0.3 * sumM));
  return [
    arcAbout(profilePoint(bodyRM - shoulderM, bodyYM), shoulderM, 0, turn),
    arcAbout(profilePoint(neckRM + sumM - shoulderM, neckYM), sumM - shoulderM, turn - Math.PI, -Math.PI),
  ];
}

function checkBottleSizes(recordId: string, p: BottleProfile): Diagnostic[] {
  const problems: Diagnostic[] = [];
  const bad = (code: string, field: string, value: unknown, message: string) =>
    problems.push(cannotMake(recordId, code, field, value, message));
  if (p.neckDiameterM > p.bodyDiameterM - 0.002) {
    bad(
      'neck-wider-than-body',
      'profile.neckDiameterM',
      p.neckDiameterM,
      `profile.neckDiameterM must be less than the body: keep it under ${inMm(Math.max(0, p.bodyDiameterM - 0.002))}.`,
    );
  }
  if (p.wallM > p.neckDiameterM * 0.4) {
    bad(
      'wall-thicker-than-glass',
      'profile.wallM',
      p.wallM,
      `profile.wallM closes the neck: keep it under ${inMm(p.neckDiameterM * 0.4)}.`,
    );
  }
  if (p.shoulderHeightM + p.neckHeightM > p.heightM - 0.004) {
    bad(
      'no-shoulder-left',
      'profile.shoulderHeightM',
      p.shoulderHeightM,
      `profile.shoulderHeightM and profile.neckHeightM leave no height for the shoulder: together they must stay under ${inMm(Math.max(0, p.heightM - 0.004))}.`,
    );
  }
  if (p.neckHeightM < p.wallM) {
    bad(
      'neck-too-short',
      'profile.neckHeightM',
      p.neckHeightM,
      `profile.neckHeightM leaves no room for the rounded mouth: use ${inMm(p.wallM * 2)} or more.`,
    );
  }
  if (p.baseThicknessM > p.shoulderHeightM - 0.005) {
    bad(
      'base-fills-glass',
      'profile.baseThicknessM',
      p.baseThicknessM,
      `profile.baseThicknessM reaches the shoulder: keep it under ${inMm(Math.max(0, p.shoulderHeightM - 0.005))}.`,
    );
  }
  return problems;
}
