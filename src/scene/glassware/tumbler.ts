import type { Diagnostic } from '../../core/diagnostic.ts';
import { fail } from '../../core/result.ts';
import { cannotMake, inMm } from '../problems.ts';
import {
  arcAbout,
  cornerTangentLengthM,
  lineBetween,
  type ProfilePoint,
  profilePoint,
  roundCorner,
  tangentDirectionLeavingCircleOnLeft,
} from '../profile/index.ts';
import type { GlassProfile } from '../records.ts';
import { closeGlassBody, type GlassPart, type GlassResult, part } from './glassBody.ts';

/** Sizes that all straight or tapered vessels share. */
export type TumblerProfile = Omit<Extract<GlassProfile, { shape: 'mug' }>, 'shape' | 'handle'>;

/**
 * Highball, tumblers, shot and mug: a straight or tapered wall on a thick flat base. The outside wall runs from the foot (base
 * diameter at y = 0) so that it touches the rounded rim; the rim is then exactly as wide and as high as its record.
 */
export function buildTumblerBody(recordId: string, profile: TumblerProfile): GlassResult {
  const problems = checkTumblerSizes(recordId, profile);
  if (problems.length > 0) return fail(problems);

  const { heightM: height, wallM: wall, baseThicknessM: floorYM } = profile;
  const rimRadius = profile.rimDiameterM / 2;
  const baseRadius = profile.baseDiameterM / 2;
  const foot = profilePoint(baseRadius, 0);
  const axisUnder = profilePoint(0, 0);
  const axisFloor = profilePoint(0, floorYM);

  // Wall: unit direction up the outside, and the normal that points out of the glass.
  const rimCentre = profilePoint(rimRadius - wall / 2, height - wall / 2);
  const up = wallDirection(profile, foot, rimCentre);
  const out = { rM: up.yM, yM: -up.rM };

  // Rim.
  const rimParts: GlassPart[] = [];
  let outerTop: ProfilePoint;
  let innerTop: ProfilePoint;
  if (profile.rim === 'flat') {
    outerTop = profilePoint(rimRadius, height);
    innerTop = profilePoint(rimRadius - wall / out.rM, height);
    rimParts.push(part('rim', lineBetween(outerTop, innerTop)));
  } else {
    const angle = Math.atan2(out.yM, out.rM);
    const cap = arcAbout(rimCentre, wall / 2, angle, angle + Math.PI);
    outerTop = cap.from;
    innerTop = cap.to;
    rimParts.push(part('rim', cap));
  }

  // Where the inside wall meets the level floor.
  const down = (innerTop.yM - floorYM) / up.yM;
  const floorCorner = profilePoint(innerTop.rM - up.rM * down, floorYM);
  const fitting = checkRoundings(recordId, profile, { axisUnder, foot, outerTop, innerTop, floorCorner, axisFloor });
  if (fitting.length > 0) return fail(fitting);

  const outside: GlassPart[] = [];
  if (profile.footRadiusM > 0) {
    const edge = roundCorner(axisUnder, foot, outerTop, profile.footRadiusM);
    outside.push(part('underside', lineBetween(axisUnder, edge.from)), part('foot edge', edge));
    outside.push(part('outer wall', lineBetween(edge.to, outerTop)));
  } else {
    outside.push(part('underside', lineBetween(axisUnder, foot)), part('outer wall', lineBetween(foot, outerTop)));
  }
  const inside: GlassPart[] = [];
  if (profile.floorFilletM > 0) {
    const fillet = roundCorner(innerTop, floorCorner, axisFloor, profile.floorFilletM);
    inside.push(part('inner wall', lineBetween(innerTop, fillet.from)), part('inner floor', fillet));
    inside.push(part('inner floor', lineBetween(fillet.to, axisFloor)));
  } else {
    inside.push(part('inner wall', lineBetween(innerTop, floorCorner)));
    inside.push(part('inner floor', lineBetween(floorCorner, axisFloor)));
  }
  return closeGlassBody(recordId, [...outside, ...rimParts], inside, { floorYM, rimYM: height });
}

function wallDirection(profile: TumblerProfile, foot: ProfilePoint, rimCentre: ProfilePoint): ProfilePoint {
  if (profile.rimDiameterM === profile.baseDiameterM) return { rM: 0, yM: 1 };
  if (profile.rim === 'rounded') return tangentDirectionLeavingCircleOnLeft(foot, rimCentre, profile.wallM / 2);
  const dr = (profile.rimDiameterM - profile.baseDiameterM) / 2;
  const l = Math.hypot(dr, profile.heightM);
  return { rM: dr / l, yM: profile.heightM / l };
}

function checkTumblerSizes(recordId: string, p: TumblerProfile): Diagnostic[] {
  const problems: Diagnostic[] = [];
  const narrowM = Math.min(p.rimDiameterM, p.baseDiameterM) / 2;
  if (p.wallM > narrowM * 0.8) {
    problems.push(
      cannotMake(
        recordId,
        'wall-thicker-than-glass',
        'profile.wallM',
        p.wallM,
        `profile.wallM leaves no inside: keep it under ${inMm(narrowM * 0.8)}, or widen the glass.`,
      ),
    );
  }
  const roomM = p.heightM - p.baseThicknessM - p.wallM;
  if (roomM < 0.002) {
    problems.push(
      cannotMake(
        recordId,
        'base-fills-glass',
        'profile.baseThicknessM',
        p.baseThicknessM,
        `profile.baseThicknessM leaves no room for a drink: keep it under ${inMm(Math.max(0, p.heightM - p.wallM - 0.002))}, or raise profile.heightM.`,
      ),
    );
  }
  if (Math.abs(p.rimDiameterM - p.baseDiameterM) > p.heightM * 2) {
    problems.push(
      cannotMake(
        recordId,
        'wall-too-flat',
        'profile.rimDiameterM',
        p.rimDiameterM,
        'profile.rimDiameterM and profile.baseDiameterM differ by more than twice the height: bring them closer or raise profile.heightM.',
      ),
    );
  }
  return problems;
}

interface Corners {
  readonly axisUnder: ProfilePoint;
  readonly foot: ProfilePoint;
  readonly outerTop: ProfilePoint;
  readonly innerTop: ProfilePoint;
  readonly floorCorner: ProfilePoint;
  readonly axisFloor: ProfilePoint;
}

function checkRoundings(recordId: string, p: TumblerProfile, c: Corners): Diagnostic[] {
  const problems: Diagnostic[] = [];
  if (c.floorCorner.rM < 0.001) {
    problems.push(
      cannotMake(
        recordId,
        'no-inside-floor',
        'profile.baseDiameterM',
        p.baseDiameterM,
        'profile.baseDiameterM leaves no floor inside: widen it, or make profile.wallM thinner.',
      ),
    );
    return problems;
  }
  const wallLengthM = Math.hypot(c.outerTop.rM - c.foot.rM, c.outerTop.yM - c.foot.yM);
  const perFootM = cornerTangentLengthM(c.axisUnder, c.foot, c.outerTop, 1);
  const footMost = Math.min(c.foot.rM, wallLengthM * 0.9) / perFootM;
  if (p.footRadiusM > footMost) {
    problems.push(
      cannotMake(
        recordId,
        'foot-rounding-too-large',
        'profile.footRadiusM',
        p.footRadiusM,
        `profile.footRadiusM does not fit the foot: keep it under ${inMm(footMost)}.`,
      ),
    );
  }
  const insideLengthM = Math.hypot(c.innerTop.rM - c.floorCorner.rM, c.innerTop.yM - c.floorCorner.yM);
  const perFloorM = cornerTangentLengthM(c.innerTop, c.floorCorner, c.axisFloor, 1);
  const floorMost = Math.min(c.floorCorner.rM, insideLengthM * 0.9) / perFloorM;
  if (p.floorFilletM > floorMost) {
    problems.push(
      cannotMake(
        recordId,
        'floor-rounding-too-large',
        'profile.floorFilletM',
        p.floorFilletM,
        `profile.floorFilletM does not fit the inside floor: keep it under ${inMm(floorMost)}.`,
      ),
    );
  }
  return problems;
}
