import type { CameraView } from '../camera/view.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { FrameScene, SetModel } from '../scene/setModel.ts';
import type { RayQuery } from '../transport/contracts.ts';

export type CheckName =
  | 'reflections'
  | 'familyOfAngles'
  | 'thingsInFrame'
  | 'flare'
  | 'exposure'
  | 'ratios'
  | 'background'
  | 'spillAndShadows'
  | 'shadowMakers'
  | 'lightDirection'
  | 'depthOfField'
  | 'practical'
  | 'glow'
  | 'colourMix'
  | 'turntable'
  | 'heroTime'
  | 'powerAndRigging';
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
  /** What the photographer has said of single findings; none when left out. */
  readonly marks?: readonly FindingMark[];
  /** The room and its mains; the usual ones when left out. */
  readonly room?: RoomConditions;
  /** How the frame is taken; a turn on the table counts as filmed when left out. */
  readonly capture?: FrameCapture;
}

/** A finding that the photographer wants as it is (a catch-light), or wants gone whatever its figure. */
export interface FindingMark {
  readonly findingId: string;
  readonly wanted: boolean;
  readonly reason: string;
}

export interface RoomConditions {
  readonly temperatureC: number;
  /** Of the drink as it is poured. */
  readonly drinkC: number;
  readonly mainsV: number;
  readonly mainsHz: number;
  /** Rating of one circuit. */
  readonly circuitA: number;
}

export interface FrameCapture {
  readonly kind: 'still' | 'turn';
  readonly framesPerS: number;
  /** Width of the delivered picture, for figures in px. */
  readonly pictureWidthPx: number;
}

/** What the edges of one maker of shadows should be, where it differs from what the frame wants of all. */
export interface WantedEdge {
  /** Record that throws the edge: a flag, cutter, screen, set piece, or a fixture for its gobo, doors and snoot. */
  readonly makerId: string;
  readonly wanted: 'any' | 'crisp' | 'soft';
  /** Penumbra that parts crisp from soft; the frame's when left out. */
  readonly penumbraM?: number;
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
  /** Clipped share of the frame, lamps in view left out: care. */
  readonly clippedCareShare: number;
  /** Share of the frame that a stand, flag or lamp may cover before it is care; under that it is a note. */
  readonly thingInFrameCareShare: number;
  /** Room to keep between a light and the family of angles of a mirror-like surface. */
  readonly familyClearanceM: number;
  /** Wanted number of shadows of the hero, the depth from which a shadow counts, and how near two count as one. */
  readonly shadowCount: number;
  readonly shadowSeenStops: number;
  readonly shadowMergeDeg: number;
  /** What the background should be. Even: worst spread care / stop. Graded: least size, and where the bright end is. */
  readonly backgroundWanted: 'any' | 'even' | 'graded';
  /** How it is read: place by place, by its lit parts alone (past stripes of shadow), or smoothed over a tenth of the frame. */
  readonly backgroundRead: 'asSeen' | 'litParts' | 'smoothed';
  readonly backgroundCareStops: number;
  readonly backgroundStopStops: number;
  readonly backgroundGradedStops: number;
  readonly backgroundPlaceU: number;
  readonly backgroundPlaceV: number;
  readonly backgroundPlaceTolerance: number;
  /** Wanted ratios; not judged where left out. */
  readonly keyToFillMinStops?: number;
  readonly keyToFillMaxStops?: number;
  readonly subjectToBackgroundMinStops?: number;
  readonly subjectToBackgroundMaxStops?: number;
  /** Sharpness: sensor diagonal over this is the circle of confusion; blur of the hero in circles, care / stop. */
  readonly circleOfConfusionDivisor: number;
  readonly blurCareCircles: number;
  readonly blurStopCircles: number;
  /** What the edges of flags and cutters should be, the penumbra that parts crisp from soft, and pattern contrast. */
  readonly edgeWanted: 'any' | 'crisp' | 'soft';
  readonly edgePenumbraM: number;
  /** Makers whose edges are wanted otherwise. */
  readonly edges: readonly WantedEdge[];
  readonly patternContrastCare: number;
  /** Angle between the light on subject, table and background. */
  readonly lightDirectionCareDeg: number;
  /** A practical's brightest part over clipping: care / stop. */
  readonly practicalCareStops: number;
  readonly practicalStopStops: number;
  /** The drink over its surroundings (not judged where left out), and the outline of the glass against what is behind. */
  readonly glowMinStops?: number;
  readonly edgeContrastCareStops: number;
  /** Turntable: wobble, motion blur and flicker. */
  readonly runOutCarePx: number;
  readonly turnBlurCarePx: number;
  readonly turnBlurStopPx: number;
  readonly flickerCareShare: number;
  /** Share of the frame over which highlights on the hero clip at the worst angle of the turn: care. */
  readonly turnClipCareShare: number;
  readonly heroTimeCareMin: number;
  readonly heroTimeStopMin: number;
  /** Difference of light sources on one receiver: note / care. */
  readonly mixNoteMired: number;
  readonly mixCareMired: number;
  /** The same toward green or magenta, Duv (CIE 1960 uv off the Planckian locus): note / care. */
  readonly tintNoteDuv: number;
  readonly tintCareDuv: number;
  /** Load of one circuit, and moment of a boom about its stand. */
  readonly circuitCareShare: number;
  readonly boomCareNm: number;
}

export interface CheckResult {
  readonly findings: readonly Finding[];
  /** Named figures with units in the name, for the report and the desk. */
  readonly figures: Readonly<Record<string, unknown>>;
  /** The run was told to stop before its end, and found nothing. */
  readonly stopped?: true;
}
