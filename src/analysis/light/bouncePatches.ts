import { cross, length } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import type { CheckInput } from '../contracts.ts';
import { type BouncePatch, isSecondarySource, patchesOf } from './bouncePatch.ts';
import type { FrameLight } from './frameLight.ts';
import type { ThrowingMirror } from './mirroredLight.ts';
import { solvePatches } from './solvePatches.ts';

const PATCHES_PER_SIDE = 4;
/** Round a shade, and along it. */
const SHADE_ROUND = 15;
const SHADE_ALONG = 3;
const SHADE_JOIN = 3;
/** Light to cloth to card, and round the inside of a shade: what is left after six is under a hundredth. */
const PASSES = 6;
/** Faces smaller than this share of a record's largest are the edges of a sheet. */
const EDGE_SHARE = 0.05;

/**
 * Cuts every matte or translucent sheet of grip into 4 x 4 patches, and the shade of every lantern into 15 x 3, and finds
 * their luminance: direct light, then light among the sheets and round the inside of a shade.
 */
export function createBouncePatches(input: CheckInput, light: FrameLight): BouncePatch[] {
  const gripIds = new Set(input.scene.grip.map((item) => item.id));
  const faces = input.set.surfaces
    .map((surface, surfaceIndex) => ({ surface, surfaceIndex, areaM2: quadAreaM2(surface) }))
    .filter(({ surface }) => isSecondarySource(surface, gripIds));
  const largest = new Map<string, number>();
  for (const { surface, areaM2 } of faces)
    largest.set(surface.recordId, Math.max(areaM2, largest.get(surface.recordId) ?? 0));
  const patches = faces.flatMap(({ surface, surfaceIndex, areaM2 }) => {
    if (surface.shape.type !== 'quad')
      return patchesOf(surface, surfaceIndex, light.layerCount, SHADE_ROUND, SHADE_ALONG, SHADE_JOIN, SHADE_JOIN);
    if (areaM2 < EDGE_SHARE * (largest.get(surface.recordId) ?? 0)) return [];
    return patchesOf(surface, surfaceIndex, light.layerCount, PATCHES_PER_SIDE, PATCHES_PER_SIDE, 2, 2);
  });
  if (patches.length > 0) solvePatches(light, input.set.surfaces, patches, PASSES);
  return patches;
}

/**
 * The same sheets with the light off the broad parts of the set on them too, and what flat mirrors throw on them: a card beside
 * white paper, or over a mirror, is lit by that more than by the lamp that it is turned away from.
 */
export function relightBouncePatches(
  input: CheckInput,
  light: FrameLight,
  sheets: readonly BouncePatch[],
  set: readonly BouncePatch[],
  mirrors: readonly ThrowingMirror[],
): readonly BouncePatch[] {
  if (sheets.length === 0 || (set.length === 0 && mirrors.length === 0)) return sheets;
  const relit = sheets.map((patch) => ({
    ...patch,
    frontNits: new Float64Array(patch.frontNits.length),
    backNits: new Float64Array(patch.backNits.length),
    frontTotal: new Float64Array(3),
    backTotal: new Float64Array(3),
    ...(mirrors.length > 0 ? { mirrored: { front: new Float64Array(3), back: new Float64Array(3) } } : {}),
  }));
  solvePatches(light, input.set.surfaces, relit, PASSES, { given: set, mirrors });
  return relit;
}

const quadAreaM2 = ({ shape }: OpticalSurface): number =>
  shape.type === 'quad' ? length(cross(shape.edgeUM, shape.edgeVM)) : 0;
