import { applyToDirection } from '../../../core/rigid.ts';
import type { Shape } from '../../../core/shape.ts';
import type { Vec3 } from '../../../core/vec3.ts';
import { length, scale } from '../../../core/vec3.ts';
import type { OpticalSurface, Volume } from '../../../materials/surface.ts';
import type { GlassCut } from '../../../scene/records.ts';

/** Media of a glass in shaders. */
export const MEDIUM = { air: 0, glass: 1, drink: 2, ice: 3 } as const;
export const MOST_SEGMENTS = 64;
export const MOST_ICE = 8;

/** One straight piece of the profile of a vessel or its drink; its normals are those of the exact surface. */
export interface ProfileSegment {
  readonly from: ProfileEnd;
  readonly to: ProfileEnd;
  readonly frontMedium: number;
  readonly backMedium: number;
  /** GGX alpha of frost; 0 polished. */
  readonly roughness: number;
  /** Whether a cut pattern may lie on it. */
  readonly isOuterWall: boolean;
}

interface ProfileEnd {
  readonly rM: number;
  readonly yM: number;
  readonly normalR: number;
  readonly normalY: number;
}

/** A cube of ice: centre, and its three half edges as vectors, in the world. */
export interface IceCube {
  readonly centreM: Vec3;
  readonly halfEdgesM: readonly [Vec3, Vec3, Vec3];
}

/** Pattern on the outer wall, heights over the foot; the first bar or facet stands at `turnRad` round the axis. */
export interface CutModel extends Pick<GlassCut, 'style' | 'count' | 'depthM' | 'bottomM' | 'topM'> {
  readonly turnRad: number;
}

/** A vessel as rays meet it: about an upright axis through `footM`. */
export interface GlassProfileModel {
  readonly footM: Vec3;
  readonly segments: readonly ProfileSegment[];
  readonly cut: CutModel | null;
  readonly ice: readonly IceCube[];
  /** Surface of the drink over the foot; below everything when there is none. */
  readonly levelM: number;
  readonly indices: readonly [air: number, glass: number, drink: number, ice: number];
  readonly absorptionsPerM: readonly [Vec3, Vec3, Vec3, Vec3];
  /** What a cloudy drink turns aside, per metre; 0 for a clear one. */
  readonly drinkScatteringPerM: Vec3;
}

/** Roles of the surfaces that a vessel and its drink are made of; all else in it is shown as what it is. */
const WALLS: ReadonlySet<string> = new Set([
  ...['underside', 'foot edge', 'foot', 'stem', 'outer wall', 'rim', 'inner wall', 'inner floor'],
  ...['liquid top', 'meniscus'],
]);

const ARC_STEP_RAD = Math.PI / 9;

/** Gathers the surfaces of one vessel, with the pattern that its record asks for; null when they are not those of a vessel. */
export function glassProfileModel(
  surfaces: readonly OpticalSurface[],
  volumes: readonly Volume[],
  cut?: GlassCut,
): GlassProfileModel | null {
  const turned = surfaces.filter(({ shape }) => shape.type === 'revolvedLine' || shape.type === 'revolvedArc');
  const walls = turned.filter(({ role }) => WALLS.has(role));
  const [first] = walls;
  if (!first) return null;
  const mediumOf = (volumeId: string | undefined): number =>
    volumeId === undefined ? MEDIUM.air : volumeId.endsWith(':drink') ? MEDIUM.drink : MEDIUM.glass;
  const segments = walls.flatMap(({ shape, frontVolume, backVolume, finish, role }) =>
    segmentsOf(shape).map(([from, to]) => ({
      from,
      to,
      frontMedium: mediumOf(frontVolume),
      backMedium: mediumOf(backVolume),
      roughness: finish.type === 'clear' ? finish.roughness : 0,
      isOuterWall: role === 'outer wall',
    })),
  );
  const top = walls.find(({ role }) => role === 'liquid top');
  const volume = (ending: string): Volume | undefined => volumes.find(({ id }) => id.endsWith(ending));
  const of = (ending: string): { index: number; absorption: Vec3; scattering: Vec3 } => {
    const medium = volume(ending)?.medium;
    return {
      index: medium?.index ?? 1,
      absorption: medium?.absorptionPerM ?? [0, 0, 0],
      // Light that goes on nearly straight is as good as not turned aside: (1 - g) of it counts.
      scattering: scale(medium?.scatteringPerM ?? [0, 0, 0], 1 - (medium?.anisotropy ?? 0)),
    };
  };
  const [glass, drink, ice] = [of(':glass'), of(':drink'), of(':ice')];
  return {
    footM: first.worldFromLocal.translationM,
    segments: segments.slice(0, MOST_SEGMENTS),
    cut: cutModel(surfaces, first.worldFromLocal.rotation, cut),
    ice: iceCubes(surfaces).slice(0, MOST_ICE),
    levelM: top?.shape.type === 'revolvedLine' ? top.shape.y0M : -1e3,
    indices: [1, glass.index, drink.index, ice.index],
    absorptionsPerM: [[0, 0, 0], glass.absorption, drink.absorption, ice.absorption],
    drinkScatteringPerM: drink.scattering,
  };
}

/** A pattern that did not fit has been left out of the set, and is here. */
function cutModel(
  surfaces: readonly OpticalSurface[],
  rotation: readonly number[],
  cut: GlassCut | undefined,
): CutModel | null {
  if (!cut || !surfaces.some(({ role }) => role === 'cut')) return null;
  const { style, count, depthM, bottomM, topM } = cut;
  return { style, count, depthM, bottomM, topM, turnRad: Math.atan2(rotation[6], rotation[0]) };
}

function segmentsOf(shape: Shape): (readonly [ProfileEnd, ProfileEnd])[] {
  if (shape.type === 'revolvedLine') {
    const dr = shape.r1M - shape.r0M;
    const dy = shape.y1M - shape.y0M;
    const l = Math.hypot(dr, dy);
    const normal = { normalR: dy / l, normalY: -dr / l };
    return [
      [
        { rM: shape.r0M, yM: shape.y0M, ...normal },
        { rM: shape.r1M, yM: shape.y1M, ...normal },
      ],
    ];
  }
  if (shape.type !== 'revolvedArc') return [];
  const span = shape.angle1Rad - shape.angle0Rad;
  const steps = Math.max(1, Math.ceil(Math.abs(span) / ARC_STEP_RAD - 1e-9));
  const side = span >= 0 ? 1 : -1;
  const end = (i: number): ProfileEnd => {
    const a = shape.angle0Rad + (span * i) / steps;
    return {
      rM: Math.max(0, shape.centreRM + shape.radiusM * Math.cos(a)),
      yM: shape.centreYM + shape.radiusM * Math.sin(a),
      normalR: Math.cos(a) * side,
      normalY: Math.sin(a) * side,
    };
  };
  return Array.from({ length: steps }, (_, i) => [end(i), end(i + 1)] as const);
}

/** Cubes by their six flat faces; bevels are left to the traced picture. */
function iceCubes(surfaces: readonly OpticalSurface[]): IceCube[] {
  const cubes = new Map<string, IceCube>();
  for (const { role, shape, worldFromLocal } of surfaces) {
    const name = /^ice \d+/.exec(role)?.[0];
    if (name === undefined || shape.type !== 'quad' || cubes.has(name)) continue;
    // A face of a cube lies half an edge from its centre, bevel or not.
    const { originM: o, edgeUM: u, edgeVM: v } = shape;
    const middle: Vec3 = [o[0] + (u[0] + v[0]) / 2, o[1] + (u[1] + v[1]) / 2, o[2] + (u[2] + v[2]) / 2];
    const halfM = length(middle);
    const along = (d: Vec3): Vec3 => applyToDirection(worldFromLocal, scale(d, halfM));
    cubes.set(name, {
      centreM: worldFromLocal.translationM,
      halfEdgesM: [along([1, 0, 0]), along([0, 1, 0]), along([0, 0, 1])],
    });
  }
  return [...cubes.values()];
}
