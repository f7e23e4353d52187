import { type Camera, cameraSchema } from '../../../src/camera/records.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import { type Fixture, fixtureSchema, type GripItem, gripSchema } from '../../../src/fixtures/records.ts';
import { type Piece, pieceSchema } from '../../../src/scene/records.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';

export const fixture = (record: Record<string, unknown>): Fixture => fixtureSchema.parse(record);
export const grip = (record: Record<string, unknown>): GripItem => gripSchema.parse(record);
export const piece = (record: Record<string, unknown>): Piece => pieceSchema.parse(record);

export const camera = (patch: Record<string, unknown> = {}): Camera =>
  cameraSchema.parse({
    positionM: [0, 0.35, 1.2],
    aimM: [0, 0.07, 0],
    focalLengthMm: 85,
    focusDistanceM: 1.2,
    apertureFNumber: 11,
    shutterS: 1 / 125,
    iso: 100,
    ...patch,
  });

export const panel = (patch: Record<string, unknown> = {}): Fixture =>
  fixture({
    kind: 'panel',
    id: 'back-panel',
    name: 'Back panel',
    positionM: [0, 0.75, -0.9],
    aimM: [0, 0.1, 0],
    widthM: 0.6,
    heightM: 0.3,
    output: { unit: 'luxAtDistance', value: 6000, distanceM: 1 },
    ...patch,
  });

export const glossSheet = (patch: Record<string, unknown> = {}): Piece =>
  piece({
    kind: 'sheet',
    id: 'sheet',
    name: 'Black gloss',
    positionM: [0, 0, 0],
    widthM: 2.4,
    depthM: 2.4,
    thicknessM: 0.005,
    finish: { type: 'gloss', reflectanceRgb: [0.02, 0.02, 0.02], coatIndex: 1.49 },
    ...patch,
  });

export const matteSheet = (reflectance = 0.4): Piece =>
  glossSheet({ finish: { type: 'matte', reflectanceRgb: [reflectance, reflectance, reflectance] } });

export const tonic = (patch: Record<string, unknown> = {}): Piece =>
  piece({
    kind: 'glass',
    id: 'tonic',
    name: 'Tonic',
    positionM: [0, 0.0051, 0],
    profile: {
      shape: 'highball',
      heightM: 0.15,
      rimDiameterM: 0.066,
      baseDiameterM: 0.06,
      wallM: 0.002,
      baseThicknessM: 0.012,
    },
    drink: { name: 'Tonic', index: 1.336, absorptionPerM: [0.4, 0.2, 0.3], fillFraction: 0.8 },
    ice: { count: 3, edgeM: 0.028, bevelM: 0.003, seed: 4 },
    ...patch,
  });

/** A small matte block for a hero where glass would only be in the way. */
export const block = (patch: Record<string, unknown> = {}): Piece =>
  piece({
    kind: 'plinthBox',
    id: 'hero',
    name: 'Stand-in',
    positionM: [0, 0.0051, 0],
    widthM: 0.05,
    depthM: 0.05,
    heightM: 0.12,
    finish: { type: 'matte', reflectanceRgb: [0.18, 0.18, 0.18] },
    ...patch,
  });

export const scene = (parts: Partial<FrameScene> = {}): FrameScene => {
  const pieces = parts.pieces ?? [glossSheet(), block()];
  return {
    pieces,
    fixtures: [panel()],
    grip: [],
    camera: camera(),
    subject: {
      pieceId: pieces[pieces.length - 1]?.id ?? 'hero',
      meterPointM: [0, 0.08, 0] as Vec3 & [number, number, number],
    },
    turntableAngleDeg: 0,
    ...parts,
  };
};

/** A full tabletop frame: gloss sheet, drink with ice, panel behind, spot, softbox, bulb, flag and bounce card. */
export const demoScene = (): FrameScene =>
  scene({
    pieces: [
      glossSheet(),
      piece({
        kind: 'wall',
        id: 'backdrop',
        name: 'Backdrop',
        positionM: [0, 0, -1.6],
        widthM: 3,
        heightM: 1.8,
        finish: { type: 'matte', reflectanceRgb: [0.2, 0.22, 0.25] },
      }),
      tonic(),
    ],
    fixtures: [
      panel(),
      fixture({
        kind: 'spot',
        id: 'key',
        name: 'Key spot',
        positionM: [-1.1, 0.9, 0.4],
        aimM: [0, 0.08, 0],
        beamAngleDeg: 24,
        output: { unit: 'luxAtDistance', value: 9000, distanceM: 1.3 },
      }),
      fixture({
        kind: 'softbox',
        id: 'fill',
        name: 'Fill box',
        positionM: [1, 0.6, 0.7],
        aimM: [0, 0.08, 0],
        widthM: 0.6,
        heightM: 0.6,
        edgeFalloff: 0.3,
        output: { unit: 'luxAtDistance', value: 1500, distanceM: 1.2 },
      }),
      fixture({
        kind: 'bulb',
        id: 'lantern',
        name: 'Lantern',
        positionM: [0.45, 0.12, -0.5],
        aimM: [0, 0.12, 0],
        output: { unit: 'lumens', value: 250 },
      }),
    ],
    grip: [
      grip({
        kind: 'bounceCard',
        id: 'card',
        name: 'White card',
        positionM: [0.25, 0.12, 0.25],
        aimM: [0, 0.08, 0],
        widthM: 0.2,
        heightM: 0.25,
      }),
    ],
  });
