import { resolveFrame } from '../../src/document/resolveFrame.ts';
import { SETUP_FORMAT, SETUP_FORMAT_VERSION, type Setup, setupSchema } from '../../src/document/setup.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import type { Piece } from '../../src/scene/records.ts';
import type { FrameScene, SetModel } from '../../src/scene/setModel.ts';
import { type RigName, rigOf } from './rigs.ts';

/** One picture of a sheet: a few pieces under a product light. */
export interface SheetItem {
  readonly caption: string;
  readonly pieces: readonly Piece[];
  /** The pieces that the camera frames; all when left out. */
  readonly frameIds?: readonly string[];
  readonly rig?: RigName;
  /** Lights of its own, as records. */
  readonly fixtures?: readonly object[];
  /** Size of the whole set of lights and backdrop against that for a glass. */
  readonly scale?: number;
  /** How far the camera looks down; 3 when left out. */
  readonly elevationDeg?: number;
  /** Where the camera stands round the thing; 0 is straight before it. */
  readonly azimuthDeg?: number;
  /** Room left round the thing: 1 fills the picture. */
  readonly margin?: number;
  /** Middle of the picture and height of what it shows, when the thing is not to be framed whole. */
  readonly close?: { readonly middleM: readonly [number, number, number]; readonly heightM: number };
}

export interface BuiltItem {
  readonly scene: FrameScene;
  readonly set: SetModel;
}

const SENSOR_HEIGHT_MM = 36;
const FOCAL_MM = 100;

/** Builds the set of an item through the document, with the camera fitted to its pieces. */
export function buildItem(item: SheetItem, aspect: number): BuiltItem {
  const first = build(setupOf(item, aspect, { middleM: [0, 0.1, 0], heightM: 1 }));
  const { middleM, heightM } = item.close ?? fitted(item, aspect, first.set);
  return build(setupOf(item, aspect, { middleM, heightM }));
}

/** Box round the framed pieces, seen from the camera's height: its middle and the height of a picture that holds it. */
function fitted(item: SheetItem, aspect: number, set: SetModel) {
  const ids = item.frameIds ?? item.pieces.map(({ id }) => id);
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (const id of ids) {
    const bounds = set.boundsByRecord.get(id);
    if (!bounds) continue;
    for (const axis of [0, 1, 2]) {
      min[axis] = Math.min(min[axis], bounds.minM[axis]);
      max[axis] = Math.max(max[axis], bounds.maxM[axis]);
    }
  }
  if (!Number.isFinite(min[0])) throw new Error(`${item.caption}: nothing was built`);
  const size = min.map((low, axis) => max[axis] - low);
  const elevation = ((item.elevationDeg ?? DEFAULT_ELEVATION_DEG) * Math.PI) / 180;
  const azimuth = ((item.azimuthDeg ?? 0) * Math.PI) / 180;
  const across = size[0] * Math.abs(Math.cos(azimuth)) + size[2] * Math.abs(Math.sin(azimuth));
  const deep = size[2] * Math.abs(Math.cos(azimuth)) + size[0] * Math.abs(Math.sin(azimuth));
  const up = size[1] * Math.cos(elevation) + deep * Math.sin(elevation);
  return {
    middleM: min.map((low, axis) => low + size[axis] / 2) as [number, number, number],
    heightM: Math.max(up, across / aspect) * (item.margin ?? 1.22),
  };
}

const DEFAULT_ELEVATION_DEG = 3;

function setupOf(
  item: SheetItem,
  aspect: number,
  view: { readonly middleM: readonly [number, number, number]; readonly heightM: number },
): Setup {
  const rig = rigOf(item.rig ?? 'product', item.scale ?? 1);
  // Of a thin lens focused there: the picture shrinks as the lens is drawn out.
  const distanceM = (view.heightM / SENSOR_HEIGHT_MM + 0.001) * FOCAL_MM;
  const elevation = ((item.elevationDeg ?? DEFAULT_ELEVATION_DEG) * Math.PI) / 180;
  const azimuth = ((item.azimuthDeg ?? 0) * Math.PI) / 180;
  const [x, y, z] = view.middleM;
  return setupSchema.parse({
    format: SETUP_FORMAT,
    formatVersion: SETUP_FORMAT_VERSION,
    title: item.caption,
    subject: { pieceId: item.pieces[0].id, meterPointM: [0, 0.05, 0] },
    pieces: [...item.pieces, ...rig.pieces],
    fixtures: [...(item.fixtures ?? []), ...rig.fixtures],
    grip: rig.grip,
    frames: [
      {
        id: 'frame:sheet',
        name: 'Sheet',
        camera: {
          positionM: [
            x + distanceM * Math.cos(elevation) * Math.sin(azimuth),
            y + distanceM * Math.sin(elevation),
            z + distanceM * Math.cos(elevation) * Math.cos(azimuth),
          ],
          aimM: [x, y, z],
          sensorWidthMm: SENSOR_HEIGHT_MM * aspect,
          sensorHeightMm: SENSOR_HEIGHT_MM,
          focalLengthMm: FOCAL_MM,
          focusDistanceM: distanceM,
          apertureFNumber: 22,
          shutterS: rig.shutterS,
          iso: 400,
        },
      },
    ],
  });
}

function build(setup: Setup): BuiltItem {
  const scene = resolveFrame(setup, 'frame:sheet');
  if (!scene.ok) throw new Error(scene.error[0]?.message ?? `${setup.title}: cannot be resolved`);
  return { scene: scene.value, set: buildSet(scene.value) };
}
