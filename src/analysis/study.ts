import type { Vec3 } from '../core/vec3.ts';
import type { Bounds } from '../scene/setModel.ts';
import type { CheckInput } from './contracts.ts';
import type { Illuminance } from './illuminance.ts';
import type { PlaceStore } from './keep/keptPlaces.ts';
import type { BouncePatch } from './light/bouncePatch.ts';
import type { FrameLight } from './light/frameLight.ts';
import type { FrameGrid, GridTracer } from './specular/frameGrid.ts';
import type { SurfaceTable } from './specular/surfaceTable.ts';

/** What several checks of one run share; each part is made when it is first asked for. */
export interface FrameStudy {
  readonly input: CheckInput;
  readonly light: FrameLight;
  readonly table: SurfaceTable;
  /** Luminance at which the sensor clips, cd/m2, close-up loss included. */
  readonly clippingNits: number;
  /** Luminance under which everything reads as black, cd/m2. */
  readonly blackNits: number;
  /** Where light of one kind of use is kept for later runs. */
  readonly places: (use: string) => PlaceStore;
  /** Bounce cards, diffusion cloths and shades, lit. */
  patches(): readonly BouncePatch[];
  /** The broad matte parts of the set, lit; and those with the sheets, for meter-grade readings. */
  setPatches(): readonly BouncePatch[];
  allPatches(): readonly BouncePatch[];
  /** Meters at the meter point. */
  meter(): MeterLight;
  /** What stands behind the subject; null when there is nothing in the frame. */
  backgroundPlace(): BackgroundPlace | null;
  /** Light on the background; null when there is none in the frame. */
  background(): BackgroundLight | null;
  /** Mean luminance of the hero as the lens sees it, cd/m2; 0 when it is not in the frame. */
  heroNits(): number;
  /** Where the hero stands; null when it is not in this frame. */
  hero(): HeroPlace | null;
  tracer(): GridTracer;
  /** The same rays without the light of matte surfaces, bounce cards and cloths excepted: for outlines. */
  outlineTracer(): GridTracer;
  grid(): FrameGrid;
}

/** Where the hero stands, how large it is, and on what. World, metres. */
export interface HeroPlace {
  readonly recordId: string;
  /** Middle of the foot, on what it stands on. */
  readonly footM: Vec3;
  /** Middle of the top. */
  readonly topM: Vec3;
  readonly heightM: number;
  /** Half its width at the widest, and near the foot. */
  readonly radiusM: number;
  readonly footRadiusM: number;
  readonly topRadiusM: number;
  /** What it stands on; null when nothing is under it. */
  readonly support: { readonly surfaceIndex: number; readonly recordId: string; readonly normal: Vec3 } | null;
  readonly bounds: Bounds;
}

/** One place of a surface that the lens sees. */
export interface SeenCell {
  readonly u: number;
  readonly v: number;
  readonly pointM: Vec3;
  /** Unit, on the side of the lens. */
  readonly normal: Vec3;
  readonly front: boolean;
  readonly surfaceIndex: number;
}

/** Light at places that the lens sees, in the order of the places. */
export interface SurfaceLight {
  /** Luminance toward the lens, cd/m2. */
  readonly nits: Float64Array;
  /** Illuminance on the side of the lens, lx; by film layer the mean over the places. */
  readonly lux: Float64Array;
  readonly meanLayerLux: Float64Array;
  readonly meanNits: number;
  readonly meanLux: number;
}

/** The largest surface behind the subject, as far as the frame shows it. */
export interface BackgroundPlace {
  readonly recordId: string;
  readonly cells: readonly SeenCell[];
  /** Part of the frame that it fills, 0..1. */
  readonly share: number;
}

/** Light over the visible background. Places in the frame, 0..1. */
export interface BackgroundLight extends SurfaceLight {
  readonly place: BackgroundPlace;
  /** Brightest over darkest cell, stops. */
  readonly spreadStops: number;
  readonly luxSpreadStops: number;
  /** Fitted plane of log luminance over the frame: its rise across the background, and where it rises to. */
  readonly gradient: { readonly stops: number; readonly directionDeg: number };
  /** Middle of the brightest part, and the darkest cell. */
  readonly hotSpot: { readonly u: number; readonly v: number };
  readonly darkest: { readonly u: number; readonly v: number };
}

/** What meters read at the meter point, the hero taken away, bounce off sheets and set included. */
export interface MeterLight {
  /** Dome toward the lens, flat cell toward the lens, flat cell level. */
  readonly dome: Illuminance;
  readonly flat: Illuminance;
  readonly level: Illuminance;
  /** What every single light gives the dome: each fixture straight, each card, cloth and shade, lx; strongest first. */
  readonly lights: readonly { readonly id: string; readonly lux: number }[];
  /** Part of the dome's reading that comes off the set, lx. */
  readonly offSetLux: number;
}
