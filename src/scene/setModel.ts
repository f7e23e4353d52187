import type { Camera } from '../camera/records.ts';
import type { Diagnostic } from '../core/diagnostic.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { Fixture, GripItem } from '../fixtures/records.ts';
import type { OpticalSurface, Volume } from '../materials/surface.ts';
import type { Piece, Subject, Turntable } from './records.ts';

/** Everything that one frame needs, after its overrides are applied. Plain data; the input of `buildSet`. */
export interface FrameScene {
  readonly pieces: readonly Piece[];
  readonly fixtures: readonly Fixture[];
  readonly grip: readonly GripItem[];
  readonly camera: Camera;
  readonly subject: Subject;
  readonly turntable?: Turntable;
  /** Turn of the table from its rest, degrees. */
  readonly turntableAngleDeg: number;
}

/** The set as exact surfaces and volumes: what the tracer, the checks, the stage and the drawing all stand on. */
export interface SetModel {
  readonly surfaces: readonly OpticalSurface[];
  readonly volumes: readonly Volume[];
  /** One film layer per fixture, in this order. Every fixture has one, also when it is off. */
  readonly layerFixtureIds: readonly string[];
  /** World bounds of each record's surfaces. */
  readonly boundsByRecord: ReadonlyMap<string, Bounds>;
  readonly diagnostics: readonly Diagnostic[];
}

export interface Bounds {
  readonly minM: Vec3;
  readonly maxM: Vec3;
}
