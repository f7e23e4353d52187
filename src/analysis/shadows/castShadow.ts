import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import { addScaled, cross, distance, dot, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { gatherPatches } from '../light/bouncePatch.ts';
import {
  type Caster,
  type CasterPart,
  findCasters,
  middleOf,
  outlineOf,
  partsOf,
  partsPerSide,
} from '../light/casters.ts';
import { planeResponse } from '../light/gatherSource.ts';
import type { FrameStudy, HeroPlace } from '../study.ts';
import { penumbraOf } from './penumbra.ts';
import { reachAlongM } from './reachAlong.ts';
import { weightedMedian } from './weightedMedian.ts';

/** The shadow that one caster throws of the hero on what it stands on. World, metres. */
export interface HeroShadow {
  readonly caster: Caster;
  /** Illuminance that the caster gives where the hero stands, the hero taken away, lx; and its part of all light there. */
  readonly lux: number;
  readonly share: number;
  /** Unit, level with the table: which way the shadow falls. */
  readonly direction: Vec3;
  /** Height of the light over the table as the foot of the hero sees it, radians. */
  readonly elevationRad: number;
  /** From the middle of the foot to the shadow of the middle of the top; null where it never ends. */
  readonly lengthM: number | null;
  readonly tipM: Vec3 | null;
  /** Middle of the light as the foot sees it. */
  readonly lightM: Vec3;
  /** All light without the hero over all light less what the hero keeps off, at the darkest place looked at. */
  readonly depthStops: number;
  readonly coreM: Vec3;
  /** Width of the soft edge where the shadow leaves the foot (across it), and at the tip (along it); null where it never ends. */
  readonly contactPenumbraM: number | null;
  readonly tipPenumbraM: number | null;
  /** Its edge on the table, once round. */
  readonly outlineM: readonly Vec3[];
}

/** Places along the shadow at which its depth is read, as parts of its length beyond the foot. */
const PLACES = [0.1, 0.25, 0.45, 0.7];
/** Heights at which foot and top are taken to reach out, as parts of the height from that end. */
const END_SHARES = [0.01, 0.05, 0.1];
/** Longest shadow that is followed. */
const REACH_M = 1.5;
/** Readings are taken this far over the table. */
const LIFT_M = 1e-5;
/** A shadow deeper than this (13 stops) is black. */
const DEEPEST_SHARE = 1e-4;
/** Light from less than this over the table only skims it. */
const LEAST_ELEVATION_RAD = 0.01;

/** Shadows of the hero under every caster that reaches its foot, deepest first. */
export function castHeroShadows(study: FrameStudy, hero: HeroPlace): HeroShadow[] {
  const casters = findCasters(study);
  const ambientLux = setLux(study, hero);
  return casters
    .map((caster) => castHeroShadow(study, hero, caster, casters, ambientLux))
    .filter((shadow) => shadow !== null)
    .sort((a, b) => b.depthStops - a.depthStops || (a.caster.id < b.caster.id ? -1 : 1));
}

/**
 * Shadow of the hero under one caster; null when the caster does not reach the foot of the hero.
 *
 * Direction and length follow from similar triangles: with the light H over the table and d away, and the hero h high, the
 * tip lies h d / (H - h) from the foot (h / tan(elevation) for a far light). The hero counts as solid: a filled glass bends
 * all but a little of the light out of its straight way.
 */
function castHeroShadow(
  study: FrameStudy,
  hero: HeroPlace,
  caster: Caster,
  casters: readonly Caster[],
  ambientLux: number,
): HeroShadow | null {
  const normal = normalOf(hero);
  const footM = addScaled(hero.footM, normal, LIFT_M);
  const middle = middleOf(visibleParts(study, hero, caster, footM));
  if (!middle) return null;
  const toLight = sub(middle.pointM, hero.footM);
  const heightM = dot(toLight, normal);
  const level = addScaled(toLight, normal, -heightM);
  const levelM = Math.sqrt(dot(level, level));
  const elevationRad = Math.atan2(heightM, levelM);
  if (elevationRad < LEAST_ELEVATION_RAD) return null;
  const direction: Vec3 = levelM > 1e-6 ? scale(level, -1 / levelM) : [0, 0, 1];

  const tipM = findTip(study, hero, caster, middle.pointM, direction);
  const lengthM = tipM ? distance(tipM, hero.footM) : null;
  const shownM = Math.min(lengthM ?? REACH_M, REACH_M);
  const luxWithout = (pointM: Vec3): number =>
    casters.reduce((sum, other) => sum + (middleOf(visibleParts(study, hero, other, pointM))?.lux ?? 0), ambientLux);

  // Depth at a few places, the darkest one counts.
  let depthStops = 0;
  let coreM = hero.footM;
  for (const at of shownM > hero.footRadiusM ? PLACES : [0]) {
    const onTable = addScaled(hero.footM, direction, hero.footRadiusM + at * (shownM - hero.footRadiusM));
    const pointM = addScaled(onTable, normal, LIFT_M);
    if (at > 0 && !liesOnSupport(study, hero, pointM)) break;
    let kept = 0;
    for (const part of visibleParts(study, hero, caster, pointM))
      if (heroBlocks(study, hero, pointM, part.pointM)) kept += part.lux;
    if (kept === 0) continue;
    const all = luxWithout(pointM);
    const depth = Math.log2(all / Math.max(all - kept, all * DEEPEST_SHARE));
    if (depth > depthStops) {
      depthStops = depth;
      coreM = onTable;
    }
  }

  const plane = { pointM: hero.footM, normal };
  const across = cross(normal, direction);
  const riseM = Math.min(hero.footRadiusM * Math.tan(elevationRad), hero.heightM);
  const footReachM = reachM(study, hero, hero.footM, normal, across) || hero.footRadiusM;
  const topReachM = reachM(study, hero, hero.topM, scale(normal, -1), direction) || hero.topRadiusM;
  const contactM = addScaled(addScaled(hero.footM, across, footReachM), normal, riseM);
  const tipEdgeM = addScaled(hero.topM, direction, topReachM);
  return {
    caster,
    lux: middle.lux,
    share: middle.lux / Math.max(luxWithout(footM), middle.lux),
    direction,
    elevationRad,
    lengthM,
    tipM,
    lightM: middle.pointM,
    depthStops,
    coreM,
    contactPenumbraM: penumbraOf(outlineOf(study, caster, contactM), contactM, plane, across),
    tipPenumbraM: tipM ? penumbraOf(outlineOf(study, caster, tipEdgeM), tipEdgeM, plane, direction) : null,
    outlineM: shadowOutline(hero, direction, across, shownM, middle.pointM, normal),
  };
}

/**
 * Where the middle of the top throws its shadow: where it keeps off half of the light that would be there. A broad light near by
 * counts most with the side that is nearer. Null when it never comes down.
 */
function findTip(study: FrameStudy, hero: HeroPlace, caster: Caster, lightM: Vec3, direction: Vec3): Vec3 | null {
  const normal = normalOf(hero);
  const firstM = projectThrough(lightM, hero.topM, hero.footM, normal);
  if (!firstM || distance(firstM, hero.footM) > REACH_M) return firstM;
  const images = visibleParts(study, hero, caster, addScaled(firstM, normal, LIFT_M)).map(({ pointM, lux }) => {
    const imageM = projectThrough(pointM, hero.topM, hero.footM, normal);
    return { at: imageM ? dot(sub(imageM, hero.footM), direction) : Number.POSITIVE_INFINITY, weight: lux };
  });
  const alongM = weightedMedian(images);
  return alongM === null || !Number.isFinite(alongM) ? firstM : addScaled(hero.footM, direction, alongM);
}

/** Widest reach of the hero in one direction over the last tenth of its height at one end. */
const reachM = (study: FrameStudy, hero: HeroPlace, endM: Vec3, inward: Vec3, direction: Vec3): number =>
  Math.max(
    ...END_SHARES.map((share) => reachAlongM(study, hero, addScaled(endM, inward, share * hero.heightM), direction)),
  );

const normalOf = (hero: HeroPlace): Vec3 => hero.support?.normal ?? [0, 1, 0];

/** Parts of a caster that a place on the table sees, the hero taken away. */
function visibleParts(study: FrameStudy, hero: HeroPlace, caster: Caster, pointM: Vec3): CasterPart[] {
  const { set, query } = study.input;
  const isHero = (surface: number): boolean => set.surfaces[surface].recordId === hero.recordId;
  return partsOf(study, caster, pointM, normalOf(hero), planeResponse, (source) => partsPerSide(source, pointM)).filter(
    (part) => !query.blocked(pointM, part.pointM, isHero),
  );
}

/** Light off the broad parts of the set where the hero stands, lx: it has no one direction and throws no shadow. */
function setLux(study: FrameStudy, hero: HeroPlace): number {
  const { set } = study.input;
  const rgb = new Float64Array(3);
  const isHero = (surface: number): boolean => set.surfaces[surface].recordId === hero.recordId;
  const normal = normalOf(hero);
  const pointM = addScaled(hero.footM, normal, LIFT_M);
  gatherPatches(study.light, study.setPatches(), pointM, normal, planeResponse, rgb, { ignore: isHero });
  return luminanceFromRec2020([rgb[0], rgb[1], rgb[2]]);
}

/** Where the line from the light over a point meets the plane through `onPlaneM`; null when it never comes down. */
function projectThrough(lightM: Vec3, overM: Vec3, onPlaneM: Vec3, normal: Vec3): Vec3 | null {
  const [lightH, overH] = [dot(sub(lightM, onPlaneM), normal), dot(sub(overM, onPlaneM), normal)];
  if (lightH <= overH + 1e-6) return null;
  return addScaled(lightM, sub(overM, lightM), lightH / (lightH - overH));
}

/** Does any part of the hero, clear or not, stand between two points? */
export function heroBlocks(study: FrameStudy, hero: HeroPlace, fromM: Vec3, toM: Vec3): boolean {
  const { set, query } = study.input;
  const d = sub(toM, fromM);
  const lengthM = Math.sqrt(dot(d, d));
  const direction = scale(d, 1 / lengthM);
  if (!meetsBounds(hero, fromM, direction)) return false;
  let startM = fromM;
  let leftM = lengthM;
  for (let i = 0; i < 16; i++) {
    const hit = query.closestHit(startM, direction, leftM);
    if (!hit) return false;
    if (set.surfaces[hit.surfaceIndex].recordId === hero.recordId) return true;
    startM = hit.pointM;
    leftM -= hit.tM;
  }
  return false;
}

function meetsBounds({ bounds: { minM, maxM } }: HeroPlace, o: Vec3, d: Vec3): boolean {
  let near = 0;
  let far = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 3; k++) {
    if (Math.abs(d[k]) < 1e-12) {
      if (o[k] < minM[k] || o[k] > maxM[k]) return false;
      continue;
    }
    const [a, b] = [(minM[k] - o[k]) / d[k], (maxM[k] - o[k]) / d[k]];
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
  }
  return near <= far;
}

/** Is the table, or whatever carries the hero, right under this point? */
function liesOnSupport(study: FrameStudy, hero: HeroPlace, pointM: Vec3): boolean {
  if (!hero.support) return false;
  const { set, query } = study.input;
  const { normal, recordId } = hero.support;
  const hit = query
    .hitsAlong(addScaled(pointM, normal, 0.001), scale(normal, -1), 0.004, 4)
    .find(({ surfaceIndex }) => set.surfaces[surfaceIndex].recordId !== hero.recordId);
  return hit !== undefined && set.surfaces[hit.surfaceIndex].recordId === recordId;
}

function shadowOutline(
  hero: HeroPlace,
  direction: Vec3,
  across: Vec3,
  shownM: number,
  lightM: Vec3,
  normal: Vec3,
): Vec3[] {
  const endM = addScaled(hero.footM, direction, shownM);
  const lightH = dot(sub(lightM, hero.footM), normal);
  const grown = lightH > hero.heightM ? lightH / (lightH - hero.heightM) : 1;
  const [near, far] = [hero.radiusM, hero.topRadiusM * Math.min(grown, 4)];
  const rim = (middleM: Vec3, radiusM: number, fromRad: number): Vec3[] =>
    [0, 1, 2, 3, 4].map((i) => {
      const a = fromRad + (i / 4) * Math.PI;
      return addScaled(addScaled(middleM, across, radiusM * Math.cos(a)), direction, radiusM * Math.sin(a));
    });
  return [...rim(endM, far, 0), ...rim(hero.footM, near, Math.PI)];
}
