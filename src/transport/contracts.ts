import type { CameraView } from '../camera/view.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { EmissionProfile, Volume } from '../materials/surface.ts';
import type { Bounds } from '../scene/setModel.ts';

/**
 * The compiled World: flat typed arrays (the words; layout in `layout/`) plus the names that let a hit be traced back
 * to records. Structured-cloneable, so it crosses to workers as it is. Working colour space of all transport: linear
 * Rec. 2020 primaries, D65, scaled so that (L, L, L) has luminance L cd/m2.
 */
export interface World {
  readonly layoutHash: string;
  readonly primitiveWords: Float32Array;
  readonly transformWords: Float32Array;
  readonly nodeWords: Float32Array;
  readonly finishWords: Float32Array;
  readonly volumeWords: Float32Array;
  readonly emitterWords: Float32Array;
  readonly normalWords: Float32Array;
  readonly profileWords: Float32Array;
  readonly primitiveCount: number;
  /** Per surface of the set, in the order of `SetModel.surfaces`. */
  readonly surfaceNames: readonly SurfaceName[];
  readonly volumes: readonly Volume[];
  /** Film layers: one per fixture, then 'surround' when a uniform surround is given (tests). */
  readonly layerIds: readonly string[];
  readonly emitters: readonly EmitterInfo[];
  /** Box round the clear surfaces of each record that has any: what light is sent at for caustics. */
  readonly clearBoxes: readonly Bounds[];
  /** Uniform radiance arriving from beyond the set; zero on a real set. */
  readonly surroundRgb: Vec3;
}

export interface SurfaceName {
  readonly recordId: string;
  readonly role: string;
  readonly fixtureId?: string;
  /** A bounce card or diffusion cloth. */
  readonly secondarySource?: true;
}

/** One emitting surface, for people and for deterministic quadrature. */
export interface EmitterInfo {
  readonly surfaceIndex: number;
  readonly fixtureId: string;
  readonly layerIndex: number;
  readonly axialLuminanceNits: number;
  readonly profile: EmissionProfile;
  readonly areaM2: number;
  /** Centroid of the surface, and mean normal (zero for a closed shape such as a bulb). */
  readonly centreM: Vec3;
  readonly normal: Vec3;
}

export interface Hit {
  readonly tM: number;
  readonly pointM: Vec3;
  /** Unit geometric normal of the front side (not flipped toward the ray). */
  readonly normal: Vec3;
  /** True when the ray meets the front. */
  readonly front: boolean;
  readonly primitiveIndex: number;
  readonly surfaceIndex: number;
}

/** Geometric queries over one World, for the checks. Deterministic, no light in it. */
export interface RayQuery {
  readonly world: World;
  closestHit(originM: Vec3, direction: Vec3, tMaxM?: number): Hit | null;
  /** All hits along a ray in order, up to `limit` (default 64). */
  hitsAlong(originM: Vec3, direction: Vec3, tMaxM?: number, limit?: number): Hit[];
  /**
   * Is the straight segment from a to b blocked by something that is not clear? Clear glass and liquid let it through
   * (undeviated); `ignore` leaves out surfaces whose record it accepts, for example the hero while a meter stands in.
   */
  blocked(aM: Vec3, bM: Vec3, ignore?: (surfaceIndex: number) => boolean): boolean;
  /** Likewise, but by anything at all: what goes through clear things is bent, and shows no image where it would run straight. */
  hidden(aM: Vec3, bM: Vec3): boolean;
  /** Point and unit normal at (u, v) in [0, 1)^2 on an emitter, uniform in area, and the pdf 1/area. */
  sampleEmitter(emitterIndex: number, u: number, v: number): { pointM: Vec3; normal: Vec3 };
  /** Luminance, cd/m2, at full output that an emitter's front shows toward `direction` (unit, away from it). */
  emittedNits(emitterIndex: number, normal: Vec3, direction: Vec3): number;
}

/** Words of a pixel's features. */
export const FEATURE_WORDS = 7;

/**
 * Progressive film: running sums per layer, so that any switch, dimmer or colour of a fixture on a traced frame is a
 * weighted sum. `layers[k]` is width x height x 3, row 0 at the top, in working RGB cd/m2 at the fixture's full output,
 * neutral; divide by `samples` of the pixel.
 */
export interface Film {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly layerIds: readonly string[];
  readonly layers: readonly Float32Array[];
  readonly samples: Uint32Array;
  /**
   * width x height x FEATURE_WORDS: sums over samples of what the lens sees first, for a denoiser's guidance: reflectance of the
   * first scattering surface (rgb), normal of the first surface met (xyz), length of the way to the scattering one (m).
   */
  readonly features: Float32Array;
  /** Sums over samples of composed luminance (under the gains given to the job) and of its square. */
  readonly luminanceSum: Float32Array;
  readonly luminanceSquareSum: Float32Array;
}

/** What to trace. Gains only steer the sampling and the error estimate; they are not baked into the layers. */
export interface TraceJob {
  readonly world: World;
  readonly view: CameraView;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly seed: number;
  /** Samples per pixel on average; noisy parts get more of them than smooth ones. */
  readonly samplesPerPixel: number;
  /** Stop sooner once the estimated grain (see `relativeError`) is down to this. */
  readonly targetRelativeError?: number;
  readonly maxDepth: number;
  /** Keep only light that at least two surfaces (or a surface and a cloudy drink) have scattered: what bounces add. */
  readonly bounceOnly?: boolean;
  /** Photons for each group of samples, for caustics; fitted to the frame when left out, 0 leaves caustics to chance. */
  readonly photonsPerPass?: number;
  /** layers x 3, working RGB. */
  readonly layerGains: Float32Array;
}
