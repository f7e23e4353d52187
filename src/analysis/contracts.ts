import type { CameraView } from '../camera/view.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { FrameScene, SetModel } from '../scene/setModel.ts';
import type { RayQuery } from '../transport/contracts.ts';

export type CheckName = 'reflections' | 'flare' | 'exposure';
export type Grade = 'ok' | 'note' | 'care' | 'stop';

/** Evidence of one fact about the frame. Figures first; the grade only says how far the figure is past its limit. */
export interface Finding {
  /** Stable for the same cause while things move, so that views can keep it selected. */
  readonly id: string;
  readonly check: CheckName;
  readonly grade: Grade;
  /** Record that the finding is about (fixture, card). */
  readonly subject: string;
  readonly value: number;
  readonly unit: string;
  readonly limit: number | null;
  /** One plain sentence for people on set. */
  readonly summary: string;
  readonly where: Where;
  readonly remedies: readonly Remedy[];
}

export interface Where {
  /** Centre in the frame: u right, v down, 0..1; outside that when out of frame. */
  readonly frame?: { readonly u: number; readonly v: number; readonly widthU: number; readonly heightV: number };
  /** Outline or samples in the frame, for drawing. */
  readonly outlineUv?: readonly (readonly [number, number])[];
  readonly pointM?: Vec3;
  /** Chains of points, lens first, that prove the finding. */
  readonly raysM?: readonly (readonly Vec3[])[];
}

/** A change to the setup as plain data; the document turns it into one undoable command. */
export type RecordChange =
  | {
      readonly op: 'update';
      readonly collection: CollectionName;
      readonly id: string;
      readonly patch: Readonly<Record<string, unknown>>;
    }
  | {
      readonly op: 'add';
      readonly collection: CollectionName;
      readonly record: Readonly<Record<string, unknown>> & { readonly id: string };
    }
  | { readonly op: 'remove'; readonly collection: CollectionName; readonly id: string };
/** 'camera' has one record, the frame's own; its id is the frame id. */
export type CollectionName = 'pieces' | 'fixtures' | 'grip' | 'camera';

export interface Remedy {
  readonly label: string;
  readonly changes: readonly RecordChange[];
}

/** Everything a check reads. */
export interface CheckInput {
  readonly scene: FrameScene;
  readonly set: SetModel;
  readonly query: RayQuery;
  readonly view: CameraView;
  /** layers x 3 working RGB gains (switch, dimmer, colour) in the order of `set.layerFixtureIds`. */
  readonly layerGains: Float32Array;
  readonly limits: CheckLimits;
  /** Id that changes to the camera carry; 'camera' when left out. */
  readonly frameId?: string;
}

export interface CheckLimits {
  /** A reflection this many stops over its surroundings is care / stop. */
  readonly reflectionCareStops: number;
  readonly reflectionStopStops: number;
  /** Share of the front element lit from outside the frame: care / stop. */
  readonly flareCareShare: number;
  readonly flareStopShare: number;
  /** Exposure at the subject against the camera settings, in stops either way: care / stop. */
  readonly exposureCareStops: number;
  readonly exposureStopStops: number;
}

export interface CheckResult {
  readonly findings: readonly Finding[];
  /** Named figures with units in the name, for the report and the desk. */
  readonly figures: Readonly<Record<string, unknown>>;
}
