import type { Vec3 } from '../../core/vec3.ts';
import { createMeshBuilder } from '../parts/mesh.ts';

/** A level line round the glass: height, and distance from the axis to the middle of each face. */
interface Station {
  readonly yM: number;
  readonly apothemM: number;
}

/** The sleeve stands this far off the wall, so that no two faces share a plane. */
const SLEEVE_CLEAR_M = 0.00006;
/** How much longer than deep the slope is in which a facet runs out above and below. Invented, by eye. */
const SLOPE = 1.3;

/**
 * Facets ground round a wall as one closed sleeve of air: outside it stands just off the wall, inside it is a many-sided tube
 * of flat faces, `depthM` under the wall at their middles, which slope out to the wall above and below. Faces that are
 * narrower than the wall's own curve leave strips of it standing between them; wider ones meet in sharp edges. The flat
 * faces are exact.
 *
 * @param wallRM radius of the straight wall at a height
 */
export function facetSleeve(
  wallRM: (yM: number) => number,
  cut: { readonly count: number; readonly depthM: number; readonly bottomM: number; readonly topM: number },
) {
  const { count, depthM, bottomM, topM } = cut;
  const slopeM = Math.min(SLOPE * depthM, (topM - bottomM) / 4);
  const at = (yM: number, offM: number): Station => ({ yM, apothemM: wallRM(yM) + offM });
  const inner = [
    at(bottomM, SLEEVE_CLEAR_M / 2),
    at(bottomM + slopeM, -depthM),
    at(topM - slopeM, -depthM),
    at(topM, SLEEVE_CLEAR_M / 2),
  ];
  const outer = [at(bottomM, SLEEVE_CLEAR_M), at(topM, SLEEVE_CLEAR_M)];
  // Once round the section of the sleeve: up the outside, down the inside, and back to the start.
  const section = [...outer, ...inner.reverse()];
  const mesh = createMeshBuilder();
  const half = Math.PI / count;
  const rings = section.map(({ yM, apothemM }) =>
    Array.from({ length: count }, (_, i) => {
      const phi = 2 * half * i - half;
      const r = apothemM / Math.cos(half);
      return mesh.corner([r * Math.cos(phi), yM, r * Math.sin(phi)] satisfies Vec3);
    }),
  );
  rings.forEach((ring, k) => {
    const above = rings[(k + 1) % rings.length];
    for (let i = 0; i < count; i++) {
      const next = (i + 1) % count;
      mesh.quad(ring[next], ring[i], above[i], above[next]);
    }
  });
  return mesh.build('flat');
}
