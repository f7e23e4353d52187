import type { CameraView } from '../../../src/camera/view.ts';
import { applyToPoint, fromHeading, IDENTITY, type RigidTransform } from '../../../src/core/rigid.ts';
import { cross, normalize, sub, type Vec3 } from '../../../src/core/vec3.ts';
import type { Finish } from '../../../src/materials/finish.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import type { SetModel } from '../../../src/scene/setModel.ts';
import { CLEAR, cylinderShapes, matte, mediumVolume, sphereShape, surfaceOf } from '../../helpers/surfaces.ts';

/*
 * A flagged table, in metres, y up: the numbers that both renderers are given. README.md says it in words.
 */
export const SIZE_PX = 128;
export const CAMERA = { fromM: [0, 0.32, 0.95], toM: [-0.1, 0.05, 0], fovDeg: 32 } as const;
/** Candela, alike in all directions; here a ball of this radius, there a point. */
export const LAMP = { positionM: [-0.15, 0.7, 0], intensityCd: 4, radiusM: 0.001 } as const;

/** Flat things: corner and two edges. */
export interface Card {
  readonly name: string;
  readonly originM: Vec3;
  readonly edgeUM: Vec3;
  readonly edgeVM: Vec3;
  readonly finish: 'matte' | 'mirror';
  readonly reflectance: number;
}

const turned = (degrees: number): RigidTransform => fromHeading([0, 0, 0], (degrees * Math.PI) / 180);
const mirrorEdge = applyToPoint(turned(-20), [0.2, 0, 0]);

export const CARDS: readonly Card[] = [
  card('table', [-0.6, 0, 0.5], [1.2, 0, 0], [0, 0, -1], 0.5),
  card('wall', [-0.6, 0, -0.5], [1.2, 0, 0], [0, 0.8, 0], 0.6),
  card('bounce', [0.55, 0, -0.4], [0, 0, 0.8], [0, 0.6, 0], 0.8),
  card('flag', [-0.35, 0.35, 0.15], [0.4, 0, 0], [0, 0, -0.3], 0.2),
  { ...card('mirror', [-0.38, 0.005, -0.22], mirrorEdge, [0, 0.15, 0], 0.9), finish: 'mirror' },
];

export const BALL = { centreM: [-0.26, 0.0505, 0.06], radiusM: 0.05, index: 1.5, transmissionPerM: 0.001 } as const;
/** Upright block: size, place of the middle of its foot, heading. */
export const BLOCK = { sizeM: [0.08, 0.12, 0.05], footM: [-0.08, 0.0005, -0.03], headingDeg: 25, index: 1.49 } as const;
export const PUCK = { centreM: [0.06, 0, 0.07], radiusM: 0.035, y0M: 0.0005, y1M: 0.05, index: 1.52 } as const;

function card(name: string, originM: Vec3, edgeUM: Vec3, edgeVM: Vec3, reflectance: number): Card {
  return { name, originM, edgeUM, edgeVM, finish: 'matte', reflectance };
}

/** The block's faces as quads with normals outward. */
export function blockFaces(): { originM: Vec3; edgeUM: Vec3; edgeVM: Vec3 }[] {
  const [w, h, d] = BLOCK.sizeM;
  const pose = fromHeading(BLOCK.footM, (BLOCK.headingDeg * Math.PI) / 180);
  const spin: RigidTransform = { ...pose, translationM: [0, 0, 0] };
  const face = (o: Vec3, u: Vec3, v: Vec3) => ({
    originM: applyToPoint(pose, o),
    edgeUM: applyToPoint(spin, u),
    edgeVM: applyToPoint(spin, v),
  });
  const [x, z] = [w / 2, d / 2];
  return [
    face([-x, 0, z], [w, 0, 0], [0, h, 0]),
    face([x, 0, -z], [-w, 0, 0], [0, h, 0]),
    face([x, 0, z], [0, 0, -d], [0, h, 0]),
    face([-x, 0, -z], [0, 0, d], [0, h, 0]),
    face([-x, h, z], [w, 0, 0], [0, 0, -d]),
    face([-x, 0, -z], [w, 0, 0], [0, 0, d]),
  ];
}

/** The scene as our tracer takes it. */
export function flaggedTable(): SetModel {
  const surfaces: OpticalSurface[] = CARDS.map(({ name, originM, edgeUM, edgeVM, finish, reflectance }) => {
    const look: Finish =
      finish === 'matte'
        ? matte(reflectance)
        : { type: 'mirror', reflectanceRgb: [reflectance, reflectance, reflectance] };
    return surfaceOf(name, { type: 'quad', originM, edgeUM, edgeVM }, look);
  });
  const at = (translationM: Vec3): RigidTransform => ({ ...IDENTITY, translationM });
  surfaces.push(
    surfaceOf('ball', sphereShape(BALL.radiusM), CLEAR, { backVolume: 'ball' }, at(BALL.centreM)),
    ...blockFaces().map((face) => surfaceOf('block', { type: 'quad', ...face }, CLEAR, { backVolume: 'block' })),
    ...cylinderShapes(PUCK.radiusM, PUCK.y0M, PUCK.y1M).map((shape) =>
      surfaceOf('puck', shape, CLEAR, { backVolume: 'puck' }, at(PUCK.centreM)),
    ),
    surfaceOf(
      'lamp',
      sphereShape(LAMP.radiusM),
      { type: 'black' },
      {
        emission: {
          fixtureId: 'lamp',
          // A ball of luminance L shows pi r^2 L to every side.
          axialLuminanceNits: LAMP.intensityCd / (Math.PI * LAMP.radiusM ** 2),
          profile: { type: 'lambert' },
        },
      },
      at(LAMP.positionM),
    ),
  );
  const loss = -Math.log(BALL.transmissionPerM);
  return {
    surfaces,
    volumes: [
      mediumVolume('ball', BALL.index, [loss, loss, loss]),
      mediumVolume('block', BLOCK.index),
      mediumVolume('puck', PUCK.index),
    ],
    layerFixtureIds: ['lamp'],
    boundsByRecord: new Map(),
    diagnostics: [],
  };
}

export function flaggedTableView(): CameraView {
  const originM: Vec3 = CAMERA.fromM;
  const forward = normalize(sub(CAMERA.toM, originM));
  const right = normalize(cross(forward, [0, 1, 0]));
  const tan = Math.tan((CAMERA.fovDeg * Math.PI) / 360);
  return {
    originM,
    right,
    up: cross(right, forward),
    forward,
    tanHalfWidth: tan,
    tanHalfHeight: tan,
    apertureRadiusM: 0,
    focusDistanceM: 1,
  };
}
