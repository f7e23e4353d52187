import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import { add, addScaled, dot, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { facePolygon } from '../specular/facePolygons.ts';
import type { FrameStudy } from '../study.ts';
import { nameOfRecord } from '../words.ts';
import type { BouncePatch } from './bouncePatch.ts';
import type { LightSource } from './frameLight.ts';
import type { Response } from './gatherSource.ts';

/** One thing that lights the set: a fixture by itself, or a lit bounce card, diffusion cloth or shade. */
export interface Caster {
  /** Record that shines. */
  readonly id: string;
  readonly name: string;
  readonly sources: readonly LightSource[];
  readonly patches: readonly BouncePatch[];
}

/** A small part of a caster as a point sees it. */
export interface CasterPart {
  readonly pointM: Vec3;
  /** Illuminance that it gives with nothing in the way, lx under the gains. */
  readonly lux: number;
}

/** Everything that is lit, fixtures first, in the order of the scene. */
export function findCasters(study: FrameStudy): Caster[] {
  const { set, scene } = study.input;
  const byId = new Map<string, { sources: LightSource[]; patches: BouncePatch[] }>();
  const of = (id: string) => {
    const known = byId.get(id);
    if (known) return known;
    const made = { sources: [], patches: [] };
    byId.set(id, made);
    return made;
  };
  for (const source of study.light.sources) of(source.emitter.fixtureId).sources.push(source);
  for (const patch of study.patches()) {
    if (luminanceOf(patch.frontTotal) + luminanceOf(patch.backTotal) > 0)
      of(set.surfaces[patch.surfaceIndex].recordId).patches.push(patch);
  }
  return [...byId].map(([id, own]) => ({ id, name: nameOfRecord(scene, id), ...own }));
}

/**
 * A caster cut into parts as seen from a point, each with the illuminance that it would give a receiver.
 *
 * @param perSide parts along each side of an emitter; more for a near large one
 */
export function partsOf(
  study: FrameStudy,
  caster: Caster,
  pointM: Vec3,
  axis: Vec3,
  response: Response,
  perSide: (source: LightSource) => number,
): CasterPart[] {
  const { light } = study;
  const parts: CasterPart[] = [];
  for (const source of caster.sources) {
    const samples = light.samplesOf(source, perSide(source));
    samples.pointsM.forEach((partM, i) => {
      const d = sub(partM, pointM);
      const squared = dot(d, d);
      if (squared < 1e-9) return;
      const inverse = 1 / Math.sqrt(squared);
      const cosEmitter = -dot(d, samples.normals[i]) * inverse;
      if (cosEmitter <= 0) return;
      const weight = response(dot(d, axis) * inverse);
      if (weight <= 0) return;
      const nits = light.query.emittedNits(source.emitterIndex, samples.normals[i], scale(d, -inverse));
      const lux = (nits * source.luminanceGain * weight * cosEmitter * samples.areaEachM2) / squared;
      if (lux > 0) parts.push({ pointM: partM, lux });
    });
  }
  for (const patch of caster.patches) {
    const d = sub(patch.pointM, pointM);
    const squared = dot(d, d);
    if (squared < 1e-9) continue;
    const inverse = 1 / Math.sqrt(squared);
    const cosPatch = -dot(d, patch.normal) * inverse;
    const nits = luminanceOf(cosPatch > 0 ? patch.frontTotal : patch.backTotal);
    const weight = response(dot(d, axis) * inverse);
    const lux = (nits * weight * Math.abs(cosPatch) * patch.areaM2) / squared;
    if (lux > 0) parts.push({ pointM: patch.pointM, lux });
  }
  return parts;
}

/** Parts per side that keep a sum over a part-shaded emitter within about a hundredth. */
export function partsPerSide(source: LightSource, pointM: Vec3): number {
  const d = sub(source.emitter.centreM, pointM);
  const ratio = source.sizeM / Math.sqrt(dot(d, d) + 1e-9);
  if (source.isOneOfMany) return ratio > 0.3 ? 2 : 1;
  return Math.max(source.fewestPerSide, ratio < 0.05 ? 2 : ratio < 0.2 ? 4 : 7);
}

/** Middle of the light that parts give, and their sum; null where there is none. */
export function middleOf(parts: readonly CasterPart[]): { readonly pointM: Vec3; readonly lux: number } | null {
  let sum: Vec3 = [0, 0, 0];
  let lux = 0;
  for (const part of parts) {
    sum = addScaled(sum, part.pointM, part.lux);
    lux += part.lux;
  }
  return lux > 0 ? { pointM: scale(sum, 1 / lux), lux } : null;
}

/** Patches dimmer than this share of the brightest are not the part of a cloth that throws an edge. */
const LIT_SHARE = 0.1;

/** Points that bound the shining part of a caster as the eye sees it, world, metres. */
export function outlineOf(study: FrameStudy, caster: Caster, eyeM: Vec3): Vec3[] {
  const { surfaces } = study.input.set;
  const points = caster.sources.flatMap(({ emitter }) => facePolygon(surfaces[emitter.surfaceIndex], eyeM, false));
  const lit = caster.patches.map((patch) => {
    const isFront = dot(sub(eyeM, patch.pointM), patch.normal) > 0;
    return luminanceOf(isFront ? patch.frontTotal : patch.backTotal);
  });
  const brightest = Math.max(0, ...lit);
  caster.patches.forEach((patch, i) => {
    if (lit[i] > LIT_SHARE * brightest) points.push(...patch.cornersM);
  });
  return points;
}

/** Largest angle between two points of an outline as seen from the eye, radians. */
export function angularSizeRad(outlineM: readonly Vec3[], eyeM: Vec3): number {
  const directions = outlineM.map((p) => normalize(sub(p, eyeM)));
  const middle = normalize(directions.reduce<Vec3>((sum, d) => add(sum, d), [0, 0, 0]));
  const widest = directions.reduce((least, d) => Math.min(least, dot(d, middle)), 1);
  return directions.length > 0 ? 2 * Math.acos(Math.max(-1, Math.min(1, widest))) : 0;
}

const luminanceOf = (rgb: ArrayLike<number>): number => luminanceFromRec2020([rgb[0], rgb[1], rgb[2]]);
