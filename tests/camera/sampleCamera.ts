import { type Camera, cameraSchema } from '../../src/camera/records.ts';

/** A plain camera for tests: 50 mm on 36 x 24 mm, a metre and a half from the subject. */
export const sampleCamera = (changes: Partial<Camera> = {}): Camera =>
  cameraSchema.parse({
    positionM: [0, 0.3, 1.5],
    aimM: [0, 0.1, 0],
    focalLengthMm: 50,
    focusDistanceM: 1.5,
    apertureFNumber: 8,
    shutterS: 1 / 125,
    iso: 100,
    ...changes,
  });
