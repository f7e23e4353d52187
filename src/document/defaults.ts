import type { RecordBase } from './records.ts';
import type { Setup } from './setup.ts';
import { soundSetup } from './soundSetup.ts';

/** A new document: a bare matte table, one highball of water, a camera, no light. */
export function emptySetup(): Setup {
  return soundSetup({
    title: 'New setup',
    subject: { pieceId: 'piece:1', meterPointM: [0, 0.075, 0] },
    pieces: [
      {
        kind: 'glass',
        id: 'piece:1',
        name: 'Highball',
        positionM: [0, 0, 0],
        profile: {
          shape: 'highball',
          heightM: 0.15,
          rimDiameterM: 0.064,
          baseDiameterM: 0.06,
          wallM: 0.0018,
          baseThicknessM: 0.012,
        },
        // Pure water, 20 C, is all but clear over the width of a glass: 0.3 per metre in the red, less elsewhere.
        drink: { name: 'Water', index: 1.333, absorptionPerM: [0.3, 0.06, 0.02], fillFraction: 0.8 },
      },
      {
        kind: 'tabletop',
        id: 'piece:2',
        name: 'Table',
        positionM: [0, 0, 0],
        widthM: 1.6,
        depthM: 0.9,
        finish: { type: 'matte', reflectanceRgb: [0.35, 0.33, 0.3] },
      },
    ],
    fixtures: [],
    frames: [
      {
        id: 'frame:1',
        name: 'Frame 1',
        camera: {
          positionM: [0, 0.28, 1.3],
          aimM: [0, 0.075, 0],
          sensorWidthMm: 36,
          sensorHeightMm: 20.25,
          focalLengthMm: 85,
          focusDistanceM: 1.316,
          apertureFNumber: 8,
          shutterS: 0.02,
          iso: 400,
        },
      },
    ],
  });
}

/** The lowest numbered id, `prefix:1`, `prefix:2`, ..., that nothing in the setup has. */
export function newId(setup: Setup, prefix: string): string {
  const taken = new Set(
    [setup.pieces, setup.fixtures, setup.grip, setup.frames].flatMap((list: readonly RecordBase[]) =>
      list.map((record) => record.id),
    ),
  );
  let number = 1;
  while (taken.has(`${prefix}:${number}`)) number += 1;
  return `${prefix}:${number}`;
}
