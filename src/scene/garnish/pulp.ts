import { createRandom } from '../../core/rng.ts';
import { add, addScaled, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { MeshBuilder } from '../parts/mesh.ts';

/** Rings of corners between the middle of a segment and its skin. */
const RINGS = 3;
/** Juice sacs stand this share of the bulge up or down. Invented, by eye. */
const SAC_SHARE = 0.75;

/**
 * Flesh of one cut segment: a low mound over its outline, uneven where the juice sacs lie side by side toward the rind.
 * Sacs are long and narrow, so neighbours round the mound differ and those one behind another hardly do.
 *
 * @param outline corners in order round the segment
 * @param mound its middle and how far that rises, both in the frame of the mesh
 * @param put adds a triangle whose corners run as the outline does
 */
export function layPulp(
  mesh: MeshBuilder,
  outline: readonly Vec3[],
  { hub, rise }: { readonly hub: Vec3; readonly rise: Vec3 },
  put: (a: number, b: number, c: number) => void,
): void {
  const random = createRandom(outline.length * 131 + Math.round(1e7 * Math.abs(hub[0] + 3 * hub[2])));
  const sacs = outline.map(() => random() - 0.5);
  const corner = (k: number, ring: number): number => {
    const t = ring / RINGS;
    const mound = 1 - t ** 3;
    const uneven = SAC_SHARE * (sacs[k] + 0.35 * (random() - 0.5)) * Math.sin(Math.PI * Math.min(1, t * 1.1)) * t;
    return mesh.corner(add(addScaled(hub, sub(outline[k], hub), t), scale(rise, mound + 2 * uneven)));
  };
  const middle = mesh.corner(add(hub, rise));
  let inner = outline.map((_, k) => corner(k, 1));
  inner.forEach((n, k) => {
    put(middle, n, inner[(k + 1) % inner.length]);
  });
  for (let ring = 2; ring <= RINGS; ring++) {
    const outer = ring === RINGS ? outline.map((p) => mesh.corner(p)) : outline.map((_, k) => corner(k, ring));
    outer.forEach((n, k) => {
      const next = (k + 1) % outer.length;
      put(inner[k], n, outer[next]);
      put(inner[k], outer[next], inner[next]);
    });
    inner = outer;
  }
}
