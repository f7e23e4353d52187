import type { Vec3 } from '../../core/vec3.ts';
import { diffuseReflectanceInside } from '../../materials/fresnel.ts';
import { dielectricReflectance } from '../../transport/kernels/microfacet.ts';
import { SurfaceKind, type SurfaceTable } from '../specular/surfaceTable.ts';
import { type BouncePatch, gatherPatches, joinPatches } from './bouncePatch.ts';
import { gatherFacets } from './facetLight.ts';
import type { FrameLight } from './frameLight.ts';
import { backResponse, gatherForPicture, planeResponse, type Response } from './gatherSource.ts';
import type { SeenPoint } from './seenPoint.ts';

/**
 * Luminance that a surface scatters toward the viewer under direct light and light off the bounce patches, without
 * mirror images. Written to `out` (working RGB, cd/m2).
 */
export interface ScatteredLight {
  readonly out: Float64Array;
  find(seen: SeenPoint): void;
}

export interface ScatteredLightOptions {
  /** Edge of a cache cell over the distance from the lens; 0 takes every point for itself. */
  readonly cellPerDistance: number;
  /** Sheen fainter than this is left out, cd/m2. */
  readonly leastNits?: number;
}

/**
 * Light is found once per small cell of space and side of a surface, at the first point asked for, and reused within the
 * cell. Shadow edges are therefore as coarse as a cell; means and medians over a few cells are not affected.
 *
 * Matte: L = reflectance E / pi. Translucent: plus transmittance x E on the other side / pi. Matte base under a clear
 * coat of index n: L = T(view) / n^2 x reflectance / (pi (1 - reflectance Ri)) x integral of T(theta) cos L dw, with
 * Fresnel T and the coat's mean reflectance from inside Ri. Rough coats and metals past the mirror-like limit add their
 * GGX sheen (Walter et al. 2007) from the emitters themselves.
 */
export function createScatteredLight(
  light: FrameLight,
  table: SurfaceTable,
  patches: readonly BouncePatch[],
  { cellPerDistance, leastNits = 0 }: ScatteredLightOptions,
): ScatteredLight {
  const coarse = joinPatches(patches);
  const out = new Float64Array(3);
  const cellAt = new Map<number, Float64Array>();
  const coats = new Map<number, { response: Response; insideReflectance: number }>();

  const coatOf = (index: number) => {
    let coat = coats.get(index);
    if (!coat) {
      const response: Response = (cos) => (cos > 0 ? cos * (1 - dielectricReflectance(cos, index)) : 0);
      coat = { response, insideReflectance: diffuseReflectanceInside(index) };
      coats.set(index, coat);
    }
    return coat;
  };

  const gather = (seen: SeenPoint, response: Response, into: Float64Array): void => {
    for (const picture of light.pictureSources) {
      const lux = gatherForPicture(light, picture, seen.pointM, seen.normal, response);
      if (lux > 0) for (let k = 0; k < 3; k++) into[k] += lux * picture.source.gainRgb[k];
    }
    if (coarse.length > 0) gatherPatches(light, coarse, seen.pointM, seen.normal, response, into);
  };

  /** Light on the viewer's side (0..2), on the far side (3..5), sheen (6..8). */
  const lightOf = (seen: SeenPoint): Float64Array => {
    const key = cellPerDistance > 0 ? cellKey(seen, cellPerDistance) : -1;
    const known = key >= 0 ? cellAt.get(key) : undefined;
    if (known) return known;
    const cell = new Float64Array(9);
    const s = seen.surfaceIndex;
    const kind = table.kind[s];
    if (kind === SurfaceKind.gloss) gather(seen, coatOf(table.coatIndex[s]).response, cell.subarray(0, 3));
    else if (kind !== SurfaceKind.metal) gather(seen, planeResponse, cell.subarray(0, 3));
    if (kind === SurfaceKind.translucent) gather(seen, backResponse, cell.subarray(3, 6));
    if (!table.mirrorLike[s] && (kind === SurfaceKind.gloss || kind === SurfaceKind.metal))
      for (const picture of light.pictureSources)
        gatherFacets(light, table, seen, picture, cell.subarray(6, 9), leastNits);
    if (key >= 0) cellAt.set(key, cell);
    return cell;
  };

  const find = (seen: SeenPoint): void => {
    const s = seen.surfaceIndex;
    const kind = table.kind[s];
    out.fill(0);
    if (kind === SurfaceKind.end || kind === SurfaceKind.mirror || kind === SurfaceKind.clear) return;
    if (kind === SurfaceKind.metal && table.mirrorLike[s]) return;
    const cell = lightOf(seen);
    const cosView = Math.max(0, dotOf(seen.normal, seen.toViewer));
    const coatIndex = table.coatIndex[s];
    for (let k = 0; k < 3; k++) {
      const reflectance = table.reflectance[s * 3 + k];
      if (kind === SurfaceKind.gloss) {
        const through = (1 - dielectricReflectance(cosView, coatIndex)) / (coatIndex * coatIndex);
        const base = reflectance / (Math.PI * (1 - reflectance * coatOf(coatIndex).insideReflectance));
        out[k] = through * base * cell[k] + cell[6 + k];
      } else if (kind === SurfaceKind.metal) out[k] = cell[6 + k];
      else out[k] = (reflectance * cell[k] + table.transmittance[s * 3 + k] * cell[3 + k]) / Math.PI;
    }
  };
  return { out, find };
}

const dotOf = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const CELLS_PER_AXIS = 2048;
const LEVELS = 16;

/** Exact integer key of a cell; -1 where the point lies too far out for one. */
function cellKey({ surfaceIndex, front, pointM, detailM }: SeenPoint, cellPerDistance: number): number {
  const level = Math.round(Math.log2(cellPerDistance * detailM)) + LEVELS / 2 + 4;
  if (level < 0 || level >= LEVELS || surfaceIndex >= 4096) return -1;
  const edgeM = 2 ** (level - LEVELS / 2 - 4);
  let key = (surfaceIndex * 2 + (front ? 1 : 0)) * LEVELS + level;
  for (const coordinate of pointM) {
    const cell = Math.floor(coordinate / edgeM) + CELLS_PER_AXIS / 2;
    if (cell < 0 || cell >= CELLS_PER_AXIS) return -1;
    key = key * CELLS_PER_AXIS + cell;
  }
  return key;
}
