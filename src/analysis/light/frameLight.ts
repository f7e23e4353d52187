import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import { addScaled, dot, orthonormalBasis, scale, type Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import type { EmitterInfo, RayQuery } from '../../transport/contracts.ts';
import type { CheckInput } from '../contracts.ts';

/** One emitting surface that is switched on, with the gain of its film layer. */
export interface LightSource {
  readonly emitter: EmitterInfo;
  readonly emitterIndex: number;
  /** Square root of the area: how large the emitter is, for choosing the number of quadrature points. */
  readonly sizeM: number;
  /** Fewest points per side that give a fair picture of its shape: a closed one hides half of them, a disc has no middle. */
  readonly fewestPerSide: number;
  /** Radius of a bulb, 0 for anything else. */
  readonly sphereRadiusM: number;
  /** Its fixture has more emitters than a few: it is one patch of a graded cloth. */
  readonly isOneOfMany: boolean;
  readonly gainRgb: Vec3;
  readonly luminanceGain: number;
}

/** A few points that stand for a whole fixture where picture-grade light will do. */
export interface PictureSource {
  readonly source: LightSource;
  /** Given points instead of a grid over the one emitter; the area carries their share of the flux. */
  readonly samples: EmitterSamples | null;
}

/** Midpoints of n x n cells of equal area on an emitter, with normals. */
export interface EmitterSamples {
  readonly pointsM: readonly Vec3[];
  readonly normals: readonly Vec3[];
  readonly areaEachM2: number;
}

/** All light of one frame under its gains, shared by every check of a run. */
export interface FrameLight {
  readonly query: RayQuery;
  /** Emitters whose gain is not zero. */
  readonly sources: readonly LightSource[];
  /** The same light with the many patches of a graded cloth gathered into nine. */
  readonly pictureSources: readonly PictureSource[];
  /** Index into `sources` by surface, -1 where a surface gives no light now. */
  readonly sourceOfSurface: Int32Array;
  readonly layerCount: number;
  readonly layerFixtureIds: readonly string[];
  samplesOf(source: LightSource, perSide: number): EmitterSamples;
}

export function createFrameLight({ set, query, layerGains }: CheckInput): FrameLight {
  const { world } = query;
  const sources: LightSource[] = [];
  const sourceOfSurface = new Int32Array(set.surfaces.length).fill(-1);
  const emittersOfFixture = new Map<string, number>();
  for (const { fixtureId } of world.emitters)
    emittersOfFixture.set(fixtureId, (emittersOfFixture.get(fixtureId) ?? 0) + 1);
  world.emitters.forEach((emitter, emitterIndex) => {
    const at = emitter.layerIndex * 3;
    const gainRgb: Vec3 = [layerGains[at] ?? 0, layerGains[at + 1] ?? 0, layerGains[at + 2] ?? 0];
    const luminanceGain = luminanceFromRec2020(gainRgb);
    if (!(luminanceGain > 0) || !(emitter.axialLuminanceNits > 0)) return;
    sourceOfSurface[emitter.surfaceIndex] = sources.length;
    const isClosed = dot(emitter.normal, emitter.normal) === 0;
    const fewestPerSide = isClosed ? 5 : set.surfaces[emitter.surfaceIndex].shape.type === 'quad' ? 1 : 2;
    sources.push({
      emitter,
      emitterIndex,
      sizeM: Math.sqrt(emitter.areaM2),
      fewestPerSide,
      sphereRadiusM: isClosed ? sphereRadiusOf(set.surfaces[emitter.surfaceIndex]) : 0,
      isOneOfMany: (emittersOfFixture.get(emitter.fixtureId) ?? 0) > MANY,
      gainRgb,
      luminanceGain,
    });
  });

  const samplesByKey = new Map<number, EmitterSamples>();
  const samplesOf = (source: LightSource, perSide: number): EmitterSamples => {
    const key = source.emitterIndex * 256 + perSide;
    const known = samplesByKey.get(key);
    if (known) return known;
    const pointsM: Vec3[] = [];
    const normals: Vec3[] = [];
    for (let i = 0; i < perSide; i++) {
      for (let j = 0; j < perSide; j++) {
        const sample = query.sampleEmitter(source.emitterIndex, (i + 0.5) / perSide, (j + 0.5) / perSide);
        pointsM.push(sample.pointM);
        normals.push(sample.normal);
      }
    }
    const samples = { pointsM, normals, areaEachM2: source.emitter.areaM2 / (perSide * perSide) };
    samplesByKey.set(key, samples);
    return samples;
  };

  return {
    query,
    sources,
    pictureSources: pictureSources(sources),
    sourceOfSurface,
    layerCount: set.layerFixtureIds.length,
    layerFixtureIds: set.layerFixtureIds,
    samplesOf,
  };
}

/** Luminance of an emitter in its brightest direction, cd/m2. */
export const brightestNitsOf = ({ axialLuminanceNits, profile }: EmitterInfo): number =>
  profile.type === 'table' || profile.type === 'measured'
    ? axialLuminanceNits * profile.relativeLuminance.reduce((most, value) => Math.max(most, value), 1)
    : axialLuminanceNits;

/** Emitters of one fixture beyond this many are gathered. */
const MANY = 9;
const BINS = 3;

function pictureSources(sources: readonly LightSource[]): PictureSource[] {
  const byFixture = new Map<string, LightSource[]>();
  for (const source of sources) {
    const list = byFixture.get(source.emitter.fixtureId);
    if (list) list.push(source);
    else byFixture.set(source.emitter.fixtureId, [source]);
  }
  return [...byFixture.values()].flatMap((list) =>
    list.length <= MANY || !isFlat(list) ? list.map((source) => ({ source, samples: null })) : gatherFlat(list),
  );
}

const sphereRadiusOf = ({ shape }: OpticalSurface): number =>
  shape.type === 'revolvedArc' && shape.centreRM === 0 && !shape.azimuth ? shape.radiusM : 0;

const isFlat = (list: readonly LightSource[]): boolean =>
  list.every(({ emitter }) => dot(emitter.normal, list[0].emitter.normal) > 0.999);

/** 3 x 3 bins over the face; each is one point at its centre of flux, its area scaled to carry the flux of all. */
function gatherFlat(list: readonly LightSource[]): PictureSource[] {
  const { normal } = list[0].emitter;
  const { tangent, bitangent } = orthonormalBasis(normal);
  const along = (axis: Vec3): ((source: LightSource) => number) => {
    const places = list.map((source) => dot(source.emitter.centreM, axis));
    const low = Math.min(...places);
    const step = (Math.max(...places) - low) / BINS + 1e-9;
    return (source) => Math.floor((dot(source.emitter.centreM, axis) - low) / step);
  };
  const [column, row] = [along(tangent), along(bitangent)];
  const bins = new Map<number, LightSource[]>();
  for (const source of list) {
    const bin = row(source) * BINS + column(source);
    bins.set(bin, [...(bins.get(bin) ?? []), source]);
  }
  return [...bins.values()].map((members) => {
    let weight = 0;
    let centre: Vec3 = [0, 0, 0];
    for (const { emitter } of members) {
      const flux = emitter.areaM2 * emitter.axialLuminanceNits;
      weight += flux;
      centre = addScaled(centre, emitter.centreM, flux);
    }
    const source = members[0];
    return {
      source,
      samples: {
        pointsM: [scale(centre, 1 / weight)],
        normals: [normal],
        areaEachM2: weight / source.emitter.axialLuminanceNits,
      },
    };
  });
}
