import type { OpticalSurface, Volume } from '../../materials/surface.ts';
import type { SetModel } from '../../scene/setModel.ts';
import { type Triangles, trianglesOf } from './triangles.ts';

/** A clear volume as one closed mesh with its front outward. */
export interface ClearBody {
  readonly volume: Volume;
  /** GGX alpha of its surface. */
  readonly roughness: number;
  readonly triangles: Triangles;
}

/**
 * How far a drink is let into the glass that holds it, m. Here glass and drink share one surface; programs that read glTF
 * take every body by itself, and two surfaces in one place flicker or leave a film of air. Letting the drink overlap is
 * the usual remedy: common practice, no source.
 */
export const DRINK_OVERLAP_M = 0.0001;

/** Every clear volume of the set with the surfaces that bound it. */
export function clearBodies(set: SetModel): ClearBody[] {
  return set.volumes.flatMap((volume): ClearBody[] => {
    const bounds = set.surfaces.filter(({ frontVolume, backVolume }) => bounded(volume.id, frontVolume, backVolume));
    if (bounds.length === 0) return [];
    const parts = bounds.map((surface) => ({ placed: surface, flipped: surface.frontVolume === volume.id }));
    const shared = parts.filter(({ flipped }) => flipped);
    const triangles = trianglesOf(parts);
    return [
      {
        volume,
        roughness: roughnessOf(bounds[0]),
        triangles: shared.length > 0 ? letInto(triangles, trianglesOf(shared)) : triangles,
      },
    ];
  });
}

const bounded = (id: string, front: string | undefined, back: string | undefined): boolean =>
  (front === id) !== (back === id);

const roughnessOf = ({ finish }: OpticalSurface): number => (finish.type === 'clear' ? finish.roughness : 0);

/** Moves every corner that lies on a shared surface outward, its neighbours on other surfaces with it. */
function letInto(body: Triangles, shared: Triangles): Triangles {
  const key = (p: readonly number[], i: number): string =>
    `${Math.round(p[3 * i] * 1e7)} ${Math.round(p[3 * i + 1] * 1e7)} ${Math.round(p[3 * i + 2] * 1e7)}`;
  const outward = new Map<string, readonly [number, number, number]>();
  for (let i = 0; i < shared.positionsM.length / 3; i++) {
    const n = shared.normals;
    outward.set(key(shared.positionsM, i), [n[3 * i], n[3 * i + 1], n[3 * i + 2]]);
  }
  const positionsM = [...body.positionsM];
  for (let i = 0; i < positionsM.length / 3; i++) {
    const n = outward.get(key(body.positionsM, i));
    if (!n) continue;
    for (let k = 0; k < 3; k++) positionsM[3 * i + k] += DRINK_OVERLAP_M * n[k];
  }
  return { ...body, positionsM };
}
