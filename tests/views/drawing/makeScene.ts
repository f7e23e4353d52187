import type { Camera } from '../../../src/camera/records.ts';
import type { CameraView } from '../../../src/camera/view.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import { buildFixture } from '../../../src/fixtures/buildFixture.ts';
import { buildGrip } from '../../../src/fixtures/buildGrip.ts';
import type { Fixture, GripItem } from '../../../src/fixtures/records.ts';
import type { FrameScene, SetModel } from '../../../src/scene/setModel.ts';

interface Choices {
  readonly fixturePositionM?: Vec3;
  readonly fixtureAimM?: Vec3;
  readonly cameraPositionM?: Vec3;
}

/** One panel, one flag and a camera round a meter point 0.1 m above the origin. */
export function makeScene(choices: Choices = {}): FrameScene {
  const fixture: Fixture = {
    kind: 'panel',
    id: 'fixture:key',
    name: 'Key',
    positionM: [...(choices.fixturePositionM ?? ([0.3, 1.3, -0.4] as const))],
    aimM: [...(choices.fixtureAimM ?? ([0, 0.1, 0] as const))],
    rollDeg: 0,
    output: { unit: 'lumens', value: 3000 },
    on: true,
    dimStops: 0,
    cctK: 5600,
    duv: 0,
    widthM: 0.6,
    heightM: 0.3,
    depthM: 0.05,
    beamAngleDeg: 120,
  };
  const flag: GripItem = {
    kind: 'flag',
    id: 'grip:flag',
    name: 'Flag',
    positionM: [-0.3, 0.2, 0.1],
    aimM: [0, 0.2, 0.1],
    rollDeg: 0,
    widthM: 0.2,
    heightM: 0.3,
  };
  const camera: Camera = {
    positionM: [...(choices.cameraPositionM ?? ([0, 0.3, 1.2] as const))],
    aimM: [0, 0.1, 0],
    rollDeg: 0,
    sensorWidthMm: 36,
    sensorHeightMm: 24,
    focalLengthMm: 85,
    focusDistanceM: 1.2,
    apertureFNumber: 8,
    pupilRatio: 1,
    shutterS: 1 / 50,
    iso: 200,
    whiteBalanceK: 5600,
    frontElementDiameterM: 0.062,
  };
  return {
    pieces: [],
    fixtures: [fixture],
    grip: [flag],
    camera,
    subject: { pieceId: 'piece:hero', meterPointM: [0, 0.1, 0] },
    turntableAngleDeg: 0,
  };
}

/** Surfaces of the lights and the grip alone; pieces have their own tests. */
export function makeSet(scene: FrameScene): SetModel {
  return {
    surfaces: [...scene.fixtures.flatMap(buildFixture), ...scene.grip.flatMap(buildGrip)],
    volumes: [],
    layerFixtureIds: scene.fixtures.map(({ id }) => id),
    boundsByRecord: new Map(),
    diagnostics: [],
  };
}

/** A level camera at the scene's camera position that looks along -z. */
export const makeView = (scene: FrameScene): CameraView => ({
  originM: scene.camera.positionM,
  right: [1, 0, 0],
  up: [0, 1, 0],
  forward: [0, 0, -1],
  tanHalfWidth: 0.2,
  tanHalfHeight: 0.15,
  apertureRadiusM: 0,
  focusDistanceM: 1,
});
