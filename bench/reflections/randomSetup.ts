import { createRandom } from '../../src/core/rng.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import { type Frame, SETUP_FORMAT, SETUP_FORMAT_VERSION, type Setup } from '../../src/document/setup.ts';
import { validateSetup } from '../../src/document/validate.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { checkSetIntegrity } from '../../src/scene/integrity.ts';
import {
  defaultGlassProfile,
  defaultIceOf,
  drinkOfLibrary,
  GLASS_SHAPES,
  type GlassShape,
} from '../../src/scene/pieceDefaults.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { createDice, type Dice } from './dice.ts';
import { randomFixture, randomGrip } from './randomLights.ts';

/** One valid tabletop set, made up from a seed. */
export interface RandomFrame {
  readonly seed: number;
  readonly setup: Setup;
  readonly frame: Frame;
  readonly scene: FrameScene;
}

const MOST_TRIES = 400;
/** One glass in seven is frosted outside; drawn apart, so that all else of a set stays as its seed says. */
const FROSTED_SHARE = 1 / 7;
const FROST_SEEDS = 1_000_000;
const SHAPES = GLASS_SHAPES.filter((shape) => shape !== 'ownProfile');
const DRINKS = ['water', 'tonic', 'iced-tea', 'hibiscus', 'white-wine', 'red-wine', 'lager', 'clear-spirit'] as const;
const STEMLESS: readonly GlassShape[] = ['highball', 'tumbler', 'doubleTumbler'];

/**
 * A set of one to three glasses of different families on a gloss, mirror, matte or rough-coated base, under one to five
 * lights of all kinds with cards, flags and diffusion, seen by a wide or a close lens. The same seed gives the same set.
 * Draws again until the document is valid, nothing stands in anything else and every record could be built.
 */
export function randomFrame(seed: number): RandomFrame {
  const dice = createDice(createRandom(seed));
  const frostDice = createDice(createRandom(seed + FROST_SEEDS));
  for (let attempt = 0; attempt < MOST_TRIES; attempt++) {
    const valid = validateSetup(drawSetup(dice, frostDice, seed));
    if (!valid.ok) throw new Error(`seed ${seed}: ${valid.error.map((issue) => issue.message).join(' ')}`);
    const [frame] = valid.value.frames;
    const scene = resolveFrame(valid.value, frame.id);
    if (!scene.ok) throw new Error(`seed ${seed}: ${scene.error[0].message}`);
    const faults = [...checkSetIntegrity(scene.value), ...buildSet(scene.value).diagnostics];
    if (faults.some(({ severity }) => severity === 'error')) continue;
    return { seed, setup: valid.value, frame, scene: scene.value };
  }
  throw new Error(`seed ${seed}: no valid set in ${MOST_TRIES} tries`);
}

function drawSetup(dice: Dice, frostDice: Dice, seed: number): Record<string, unknown> {
  const shapes = dice.someOf(SHAPES, dice.whole(1, 3));
  const glasses = shapes.map((shape, i) => drawGlass(dice, frostDice, shape, i));
  const lights = dice.whole(1, 5);
  const fixtures = Array.from({ length: lights }, (_, i) => randomFixture(dice, `fixture:${i + 1}`));
  const grip = Array.from({ length: dice.whole(0, 3) }, (_, i) => randomGrip(dice, `grip:${i + 1}`));
  return {
    format: SETUP_FORMAT,
    formatVersion: SETUP_FORMAT_VERSION,
    title: `Random set ${seed}`,
    subject: { pieceId: 'piece:glass-1', meterPointM: [0, 0.075, 0] },
    pieces: [
      ...glasses,
      {
        kind: 'sheet',
        id: 'piece:base',
        name: 'Base',
        positionM: [0, -0.005, 0],
        widthM: dice.between(0.5, 1.6),
        depthM: dice.between(0.5, 1.2),
        thicknessM: 0.005,
        finish: drawBaseFinish(dice),
      },
      {
        kind: 'tabletop',
        id: 'piece:table',
        name: 'Table',
        positionM: [0, -0.0052, 0],
        widthM: 1.8,
        depthM: 1.4,
        finish: grey(dice, 0.03, 0.4),
      },
      ...(dice.chance(0.7)
        ? [
            {
              kind: 'wall',
              id: 'piece:wall',
              name: 'Wall',
              positionM: [0, -0.8, -dice.between(0.9, 1.8)],
              widthM: 3.2,
              heightM: 2.4,
              finish: dice.chance(0.85) ? grey(dice, 0.03, 0.6) : gloss(dice, dice.between(0.01, 0.2), 0),
            },
          ]
        : []),
    ],
    fixtures,
    grip,
    frames: [{ id: 'frame:1', name: 'Frame', camera: drawCamera(dice) }],
  };
}

function drawGlass(dice: Dice, frostDice: Dice, shape: GlassShape, index: number): Record<string, unknown> {
  const side = index === 0 ? 0 : index === 1 ? -1 : 1;
  const drink = drinkOfLibrary(dice.oneOf(DRINKS));
  const form = dice.oneOf(['cube', 'cracked', 'sphere'] as const);
  return {
    kind: 'glass',
    id: `piece:glass-${index + 1}`,
    name: `Glass ${index + 1}`,
    positionM: [side * dice.between(0.1, 0.17), 0, index === 0 ? 0 : dice.between(-0.12, 0.06)],
    headingDeg: dice.between(-180, 180),
    profile: defaultGlassProfile(shape),
    ...(frostDice.chance(FROSTED_SHARE) ? { frost: frostDice.between(0.3, 1) } : {}),
    ...(drink && dice.chance(0.85) ? { drink: { ...drink, fillFraction: dice.between(0.5, 0.85) } } : {}),
    ...(STEMLESS.includes(shape) && dice.chance(0.6)
      ? { ice: { ...defaultIceOf(form), seed: dice.whole(1, 1000), ...(form === 'cracked' ? { count: 5 } : {}) } }
      : {}),
  };
}

const grey = (dice: Dice, low: number, high: number) => {
  const r = dice.between(low, high);
  return { type: 'matte', reflectanceRgb: [r, r * dice.between(0.9, 1), r * dice.between(0.8, 1)] };
};
const gloss = (dice: Dice, r: number, roughness: number) => ({
  type: 'gloss',
  reflectanceRgb: [r, r, r],
  coatIndex: dice.between(1.45, 1.6),
  roughness,
});

function drawBaseFinish(dice: Dice): Record<string, unknown> {
  switch (dice.oneOf(['black gloss', 'grey gloss', 'mirror', 'matte', 'rough coat', 'rough metal'] as const)) {
    case 'black gloss':
      return gloss(dice, 0.01, 0);
    case 'grey gloss':
      return gloss(dice, dice.between(0.05, 0.5), 0);
    case 'mirror':
      return { type: 'mirror', reflectanceRgb: [0.9, 0.9, 0.9] };
    case 'matte':
      return grey(dice, 0.03, 0.7);
    case 'rough coat':
      return gloss(dice, dice.between(0.01, 0.3), dice.between(0.05, 0.3));
    case 'rough metal':
      return { type: 'metal', reflectanceRgb: [0.8, 0.78, 0.72], roughness: dice.between(0.05, 0.3) };
  }
}

function drawCamera(dice: Dice): Record<string, unknown> {
  const isClose = dice.chance(0.5);
  const distanceM = isClose ? dice.between(0.5, 0.9) : dice.between(1.1, 1.8);
  const elevationRad = (dice.between(4, 40) * Math.PI) / 180;
  const turnRad = (dice.between(-25, 25) * Math.PI) / 180;
  const aimM: Vec3 = [dice.between(-0.03, 0.03), dice.between(0.03, 0.09), 0];
  const level = distanceM * Math.cos(elevationRad);
  return {
    positionM: [
      aimM[0] + level * Math.sin(turnRad),
      aimM[1] + distanceM * Math.sin(elevationRad),
      aimM[2] + level * Math.cos(turnRad),
    ],
    aimM,
    sensorWidthMm: 36,
    sensorHeightMm: dice.oneOf([24, 20.25]),
    focalLengthMm: isClose ? dice.between(60, 110) : dice.between(50, 100),
    focusDistanceM: distanceM,
    apertureFNumber: 8,
    shutterS: 1 / 50,
    iso: dice.oneOf([100, 200, 400, 800]),
  };
}
