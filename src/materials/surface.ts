import type { RigidTransform } from '../core/rigid.ts';
import type { Shape } from '../core/shape.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { Finish } from './finish.ts';

/**
 * A homogeneous medium: clear, absorbing or cloudy. Absorption is Beer-Lambert, per metre, for the R, G, B working
 * channels; scattering likewise, with the Henyey-Greenstein mean cosine `anisotropy` (0 when left out: even all round).
 */
export interface Medium {
  readonly index: number;
  readonly absorptionPerM: Vec3;
  readonly scatteringPerM?: Vec3;
  readonly anisotropy?: number;
}

/**
 * A closed region filled with one medium. Where regions overlap, the one with the higher priority fills the overlap
 * (ice over liquid, glass over liquid): boundaries inside it do nothing. Regions that touch share one boundary surface
 * that names both, so glass and drink have no false gap of air between them.
 */
export interface Volume {
  readonly id: string;
  readonly recordId: string;
  readonly medium: Medium;
  readonly priority: number;
}

/** Angular shape of an emitter's luminance about its normal, 1 on the axis. The same at every point of the emitter. */
export type EmissionProfile =
  | { readonly type: 'lambert' }
  /** Intensity falls as cos^exponent, so luminance as cos^(exponent - 1). */
  | { readonly type: 'cosPower'; readonly exponent: number }
  /** Relative luminance at equal steps of angle from 0 to 90 degrees inclusive. */
  | { readonly type: 'table'; readonly relativeLuminance: readonly number[] }
  | MeasuredProfile;

/**
 * Luminance by direction in the luminaire's own frame, the same at every point of the emitter: a goniophotometer's
 * distribution over the projected area of the luminous opening. Not symmetrical about the surface normal in general.
 */
export interface MeasuredProfile {
  readonly type: 'measured';
  /** World from luminaire, row-major: theta is counted from its +z (where it points), phi from its +x toward its +y. */
  readonly rotation: RigidTransform['rotation'];
  /** theta at equal steps from 0 to 180 degrees inclusive. */
  readonly thetaCount: number;
  /** phi at equal steps from 0 to 360 degrees inclusive; the last equals the first. */
  readonly phiCount: number;
  /** phiCount runs of thetaCount values, relative to the axial luminance. Linear in both angles in between. */
  readonly relativeLuminance: readonly number[];
}

/** Light leaving the front of a surface. */
export interface Emission {
  readonly fixtureId: string;
  /**
   * Luminance on the axis, cd/m2, at full output and before colour: a fixture's dimmer, switch, colour temperature and
   * gels act later as a gain on its film layer, so they never need a new trace.
   */
  readonly axialLuminanceNits: number;
  readonly profile: EmissionProfile;
}

/** One surface of the set, with what it is made of, what lies on each side, and whose it is. */
export interface OpticalSurface {
  readonly recordId: string;
  /** What part of the record, for people: 'outer wall', 'liquid top', 'emitting face', 'barn door left'. */
  readonly role: string;
  readonly shape: Shape;
  readonly worldFromLocal: RigidTransform;
  readonly finish: Finish;
  /**
   * World from the frame in which the pattern of the finish lies: that of the whole record, so that a pattern runs on
   * from one surface of a piece to the next. `worldFromLocal` when left out.
   */
  readonly patternFrame?: RigidTransform;
  /** Volume id on the side that the normal points to; air when left out. */
  readonly frontVolume?: string;
  /** Volume id behind the surface; air when left out. */
  readonly backVolume?: string;
  readonly emission?: Emission;
  /** A bounce card or diffusion cloth: lights the set at second hand, so the tracer looks for it on purpose. */
  readonly secondarySource?: true;
}
