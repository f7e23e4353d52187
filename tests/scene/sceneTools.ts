import { cameraSchema } from '../../src/camera/records.ts';
import { createRandom } from '../../src/core/rng.ts';
import { defaultGlassProfile, type GlassShape } from '../../src/scene/pieceDefaults.ts';
import type { GlassPiece } from '../../src/scene/pieces/glass.ts';
import { type GlassProfile, glassProfileSchema, type Piece } from '../../src/scene/records.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';

export const sceneOf = (pieces: readonly Piece[], more: Partial<FrameScene> = {}): FrameScene => ({
  pieces,
  fixtures: [],
  grip: [],
  camera: cameraSchema.parse({
    positionM: [0, 0.3, 1.5],
    aimM: [0, 0.07, 0],
    focalLengthMm: 85,
    focusDistanceM: 1.5,
    apertureFNumber: 8,
    shutterS: 1 / 125,
    iso: 100,
  }),
  subject: { pieceId: 'glass', meterPointM: [0, 0.07, 0] },
  turntableAngleDeg: 0,
  ...more,
});

export const glassOf = (profile: GlassProfile, more: Partial<GlassPiece> = {}): GlassPiece => ({
  id: 'glass',
  name: 'Glass',
  kind: 'glass',
  positionM: [0, 0, 0],
  headingDeg: 0,
  profile,
  glassIndex: 1.52,
  glassAbsorptionPerM: [2, 0.8, 1.6],
  ...more,
});

/** The generic glass of a shape with every size stretched by its own seeded factor. */
export function randomProfile(shape: GlassShape, seed: number, spread: number): GlassProfile {
  const random = createRandom(seed);
  const stretched = Object.entries(defaultGlassProfile(shape)).map(([key, value]) => [
    key,
    typeof value === 'number' ? value * (1 + spread * (2 * random() - 1)) : value,
  ]);
  return glassProfileSchema.parse(Object.fromEntries(stretched));
}
