import { SETUP_FORMAT, SETUP_FORMAT_VERSION, type Setup, setupSchema } from '../../document/setup.ts';

/** What stands on the table before anything is opened: a tumbler on grey board. */
export const BLANK_SETUP: Setup = setupSchema.parse({
  format: SETUP_FORMAT,
  formatVersion: SETUP_FORMAT_VERSION,
  title: 'Untitled',
  subject: { pieceId: 'hero', meterPointM: [0, 0.05, 0] },
  pieces: [
    {
      kind: 'tabletop',
      id: 'table',
      name: 'Table',
      positionM: [0, 0, 0],
      widthM: 1.2,
      depthM: 0.8,
      finish: { type: 'matte', reflectanceRgb: [0.18, 0.18, 0.18] },
    },
    {
      kind: 'glass',
      id: 'hero',
      name: 'Tumbler',
      positionM: [0, 0, 0],
      profile: {
        shape: 'tumbler',
        heightM: 0.1,
        rimDiameterM: 0.085,
        baseDiameterM: 0.075,
        wallM: 0.003,
        baseThicknessM: 0.01,
      },
    },
  ],
  fixtures: [],
  frames: [
    {
      id: 'frame',
      name: 'Frame',
      camera: {
        positionM: [0, 0.25, 1],
        aimM: [0, 0.05, 0],
        sensorHeightMm: 20.25,
        focalLengthMm: 85,
        focusDistanceM: 1.02,
        apertureFNumber: 8,
        shutterS: 1 / 50,
        iso: 400,
      },
    },
  ],
});
