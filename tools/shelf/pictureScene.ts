import { cameraSchema } from '../../src/camera/records.ts';
import { add, addScaled, length, normalize, scale, sub, type Vec3 } from '../../src/core/vec3.ts';
import { FIXTURE_PRESETS, fixtureFromPreset, GRIP_PRESETS, gripFromPreset } from '../../src/fixtures/catalog.ts';
import { type Fixture, fixtureSchema } from '../../src/fixtures/records.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { PIECE_SHELF, type ShelfGroup } from '../../src/scene/pieceShelf.ts';
import { type Piece, pieceSchema } from '../../src/scene/records.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';

/** One small picture to take. */
export interface PictureScene {
  readonly key: string;
  readonly scene: FrameScene;
  /** Layer of the light that is the subject, if one is: shown at its own brightness, whatever its output. */
  readonly ownLightId?: string;
}

const ASPECT_WIDTH_MM = 36;
const ASPECT_HEIGHT_MM = 27;
const FOCAL_MM = 90;
const VIEW: Vec3 = normalize([0.42, 0.34, 1]);
/** Tables and sheets are looked down on, so that they fill the picture. */
const VIEW_DOWN: Vec3 = normalize([0.22, 0.62, 1]);
/** Lux of the key at the subject; with the camera's own exposure white paper comes out a little under white. */
const KEY_LUX = 2400;
const THING = 'piece:thing';

/** How much of a large thing is shown: a table or a wall is known by its face, not by its outline. */
const SHOWN_RADIUS_M: Partial<Record<ShelfGroup, number>> = { surfaces: 0.16, backdrops: 0.55 };

export function pictureScenes(): PictureScene[] {
  return [
    ...PIECE_SHELF.map(({ id, group, make }) => pieceScene(id, group, make(THING))),
    ...FIXTURE_PRESETS.map((preset) =>
      lightScene(
        preset.id,
        fixtureFromPreset(preset, {
          id: 'fixture:thing',
          name: 'Thing',
          positionM: [0, 0.5, 0],
          aimM: [-0.8, 0.35, 1],
        }),
      ),
    ),
    ...GRIP_PRESETS.map(({ id, ...preset }) => {
      const item = gripFromPreset(
        { id, ...preset },
        { id: 'grip:thing', name: 'Thing', positionM: [0, 0.5, 0], aimM: [-0.5, 0.55, 1] },
      );
      const radiusM = Math.hypot(item.widthM, item.heightM) / 2;
      return {
        key: id,
        scene: { ...studio([0, 0.5, 0], radiusM * 1.02, 0.5 - item.heightM / 2 - 0.02), grip: [item] },
      };
    }),
  ];
}

function pieceScene(key: string, group: ShelfGroup, piece: Piece): PictureScene {
  const { minM, maxM } = boundsOf({ ...EMPTY, pieces: [piece], subject: { pieceId: THING, meterPointM: [0, 0, 0] } });
  const whole = length(sub(maxM, minM)) / 2;
  const shown = SHOWN_RADIUS_M[group];
  const middle = scale(add(minM, maxM), 0.5);
  if (shown === undefined || whole <= shown)
    return { key, scene: { ...withPiece(studio(middle, whole, minM[1]), piece) } };
  // A surface is seen from over its near half, a backdrop from a person's height.
  const eyeLevelM = piece.kind === 'sweep' ? 0.35 : middle[1];
  const atM: Vec3 = group === 'surfaces' ? [middle[0], maxM[1], middle[2]] : [0, eyeLevelM, middle[2]];
  return { key, scene: withPiece(studio(atM, shown, null, group === 'surfaces' ? VIEW_DOWN : VIEW), piece) };
}

const withPiece = (scene: FrameScene, piece: Piece): FrameScene => ({ ...scene, pieces: [...scene.pieces, piece] });

function lightScene(key: string, fixture: Fixture): PictureScene {
  const { minM, maxM } = boundsOf({ ...EMPTY, fixtures: [fixture] });
  const middle = scale(add(minM, maxM), 0.5);
  const scene = studio(middle, (length(sub(maxM, minM)) / 2) * 0.86, minM[1] - 0.02);
  return { key, scene: { ...scene, fixtures: [...scene.fixtures, fixture] }, ownLightId: fixture.id };
}

const CAMERA = {
  sensorWidthMm: ASPECT_WIDTH_MM,
  sensorHeightMm: ASPECT_HEIGHT_MM,
  focalLengthMm: FOCAL_MM,
  apertureFNumber: 32,
  shutterS: 0.5,
  iso: 200,
};

const EMPTY: FrameScene = {
  pieces: [],
  fixtures: [],
  grip: [],
  camera: cameraSchema.parse({ ...CAMERA, positionM: [0, 0, 9], aimM: [0, 0, 0], focusDistanceM: 9 }),
  subject: { pieceId: THING, meterPointM: [0, 0, 0] },
  turntableAngleDeg: 0,
};

function boundsOf(scene: FrameScene) {
  const { boundsByRecord } = buildSet(scene);
  const found = boundsByRecord.get(scene.fixtures[0]?.id ?? THING);
  if (!found) throw new Error('the thing has no surfaces');
  return found;
}

/**
 * A dark studio to the measure of the thing: a softbox from the left above, a strip behind at the right for the edges,
 * a glow on the wall behind.
 *
 * @param floorM height of the floor; none when null
 */
function studio(middleM: Vec3, radiusM: number, floorM: number | null, view = VIEW): FrameScene {
  const distanceM = (radiusM * FOCAL_MM) / (ASPECT_HEIGHT_MM / 2) / 0.85;
  const eyeM = addScaled(middleM, view, distanceM);
  const at = (x: number, y: number, z: number): Vec3 => add(middleM, scale([x, y, z], radiusM));
  const floor =
    floorM === null
      ? []
      : [
          pieceSchema.parse({
            kind: 'sweep',
            id: 'piece:floor',
            name: 'Floor',
            positionM: [middleM[0], floorM - 0.0005, middleM[2] + radiusM * 9],
            widthM: Math.min(50, radiusM * 40),
            floorDepthM: Math.min(40, radiusM * 13),
            coveRadiusM: radiusM * 2.5,
            heightM: Math.min(40, radiusM * 16),
            finish: { type: 'matte', reflectanceRgb: [0.11, 0.102, 0.092] },
          }),
        ];
  const light = (id: string, from: Vec3, widthM: number, heightM: number, lux: number, to = middleM) =>
    fixtureSchema.parse({
      kind: 'softbox',
      id,
      name: id,
      positionM: [...from],
      aimM: [...to],
      widthM,
      heightM,
      depthM: 0.01,
      output: { unit: 'luxAtDistance', value: lux, distanceM: length(sub(from, to)) },
    });
  return {
    ...EMPTY,
    pieces: floor,
    fixtures: [
      light('fixture:key', at(-3.4, 3.2, 2.2), radiusM * 3, radiusM * 3, KEY_LUX),
      light('fixture:edge', at(3.2, 1.6, -1.6), radiusM * 1, radiusM * 4, KEY_LUX * 1.1),
      // Where a polished sheet mirrors, over its far half: that it is polished shows by nothing else.
      ...(view === VIEW_DOWN
        ? [light('fixture:mirrored', at(-1.7, 5.2, -6.4), radiusM * 4, radiusM * 2.2, KEY_LUX * 0.16)]
        : []),
      light('fixture:behind', at(0.6, 4.6, -2.6), radiusM * 2, radiusM * 1, KEY_LUX * 1.5, at(0, 0, -3.2)),
    ],
    camera: cameraSchema.parse({ ...CAMERA, positionM: [...eyeM], aimM: [...middleM], focusDistanceM: distanceM }),
    subject: { pieceId: THING, meterPointM: [...middleM] },
  };
}
