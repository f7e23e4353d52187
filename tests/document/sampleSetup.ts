import type { Setup } from '../../src/document/setup.ts';
import { validateSetup } from '../../src/document/validate.ts';

/** A small setup with one of each thing that the document treats differently. */
export function sampleSetup(): Setup {
  const result = validateSetup(sampleData());
  if (!result.ok) throw new Error(result.error.map((issue) => issue.message).join('\n'));
  return result.value;
}

/** The same as unchecked data, fresh each time, for tests that spoil it. */
export function sampleData() {
  const camera = {
    positionM: [0, 0.28, 1.3],
    aimM: [0, 0.075, 0],
    focalLengthMm: 85,
    focusDistanceM: 1.3,
    apertureFNumber: 8,
    shutterS: 0.02,
    iso: 400,
  };
  return {
    format: 'keyglass-setup',
    formatVersion: 1,
    title: 'Sample',
    brief: { client: '', mood: 'quiet', deliverables: '', notes: '' },
    subject: { pieceId: 'piece:hero', meterPointM: [0, 0.08, 0] },
    pieces: [
      {
        kind: 'glass',
        id: 'piece:hero',
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
        drink: { name: 'Tonic', absorptionPerM: [1, 1, 1], fillFraction: 0.8 },
      },
      {
        kind: 'tabletop',
        id: 'piece:table',
        name: 'Table',
        positionM: [0, 0, 0],
        widthM: 1.2,
        depthM: 0.8,
        finish: { type: 'matte', reflectanceRgb: [0.4, 0.4, 0.4] },
      },
    ],
    fixtures: [
      {
        kind: 'panel',
        id: 'fixture:key',
        name: 'Key',
        positionM: [-0.6, 0.8, 0.3],
        aimM: [0, 0.08, 0],
        output: { unit: 'lumens', value: 3000 },
        widthM: 0.3,
        heightM: 0.3,
        barnDoors: { lengthM: 0.1, topDeg: 60, bottomDeg: 60, leftDeg: 90, rightDeg: 90 },
      },
      {
        kind: 'spot',
        id: 'fixture:back',
        name: 'Back spot',
        positionM: [0.5, 0.7, -0.6],
        aimM: [0, 0.08, 0],
        output: { unit: 'luxAtDistance', value: 2000, distanceM: 1 },
        beamAngleDeg: 20,
      },
    ],
    grip: [
      {
        kind: 'bounceCard',
        id: 'grip:card',
        name: 'White card',
        positionM: [0.4, 0.15, 0.3],
        aimM: [0, 0.08, 0],
        widthM: 0.3,
        heightM: 0.3,
      },
    ],
    turntable: { centreM: [0, 0, 0], diameterM: 0.3, rpm: 2, carries: ['piece:hero'] },
    frames: [
      { id: 'frame:wide', name: 'Wide', camera },
      {
        id: 'frame:close',
        name: 'Close-up',
        kind: 'turn',
        camera: { ...camera, focalLengthMm: 100 },
        overrides: [{ collection: 'fixtures', id: 'fixture:key', patch: { dimStops: -1 } }],
        hidden: ['grip:card'],
      },
    ],
  };
}
