import type { Setup } from '../setup.ts';
import { soundSetup } from '../soundSetup.ts';

/** Id of the grey cylinder that stands where the hero will: the first glass from the shelf takes its place. */
export const STAND_IN_ID = 'piece:stand-in';

export const hasStandIn = (setup: Setup): boolean =>
  setup.subject.pieceId === STAND_IN_ID && setup.pieces.some(({ id }) => id === STAND_IN_ID);

/** An empty table: a bare matte top, a stand-in for the hero, a camera, no light. */
export function emptyTable(): Setup {
  return soundSetup({
    title: 'New setup',
    subject: { pieceId: STAND_IN_ID, meterPointM: [0, 0.075, 0] },
    pieces: [
      {
        kind: 'plinthCylinder',
        id: STAND_IN_ID,
        name: 'Stand-in',
        positionM: [0, 0, 0],
        diameterM: 0.064,
        heightM: 0.15,
        // The grey that a card meters by.
        finish: { type: 'matte', reflectanceRgb: [0.18, 0.18, 0.18] },
      },
      {
        kind: 'tabletop',
        id: 'piece:table',
        name: 'Table',
        positionM: [0, 0, 0],
        widthM: 1.8,
        // Up to where a wall from the shelf stands, so that no gap shows between them.
        depthM: 1.58,
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
          sensorHeightMm: 24,
          focalLengthMm: 85,
          focusDistanceM: 1.29,
          apertureFNumber: 8,
          shutterS: 0.02,
          iso: 400,
        },
      },
    ],
  });
}
