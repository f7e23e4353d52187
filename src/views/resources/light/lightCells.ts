import { cross, dot, normalize, scale, sub, type Vec3 } from '../../../core/vec3.ts';
import { profileAt } from './profileTable.ts';
import type { SceneLight } from './sceneLights.ts';

/** One cell of a light as seen from a point. */
export interface LightCell {
  readonly pointM: Vec3;
  /** Area times cosine at the light times its luminance over that on the axis, m2. */
  readonly weightM2: number;
  /** Side of a square of the cell's area. */
  readonly sideM: number;
}

/** A round source is lit as the square of its area. */
export const SQUARE_OF_DISC = Math.sqrt(Math.PI) / 2;
/** Lamps and lenses are small beside their distance: 2 x 2 cells. */
const ROUND_CELLS = 2;

/**
 * Cuts a light into cells for a point: n x n over a rectangle (half as many for a second-hand one), 2 x 2 over the face that a round source turns to the
 * point, 2n along a tube. Twin: `lightingGlsl.ts`.
 */
export function lightCells(light: SceneLight, pointM: Vec3, cellsPerSide: number): LightCell[] {
  const n = light.secondHand ? Math.max(1, cellsPerSide >> 1) : cellsPerSide;
  switch (light.kind) {
    case 'rectangle':
      return faceCells(light, pointM, { u: light.halfUM, v: light.halfVM, normal: light.normal, nu: n, nv: n });
    case 'disc':
      return faceCells(light, pointM, {
        u: scale(light.halfUM, SQUARE_OF_DISC),
        v: scale(light.halfVM, SQUARE_OF_DISC),
        normal: light.normal,
        nu: ROUND_CELLS,
        nv: ROUND_CELLS,
      });
    case 'sphere': {
      const normal = normalize(sub(pointM, light.centreM));
      const side = Math.hypot(...light.halfUM) * SQUARE_OF_DISC;
      const u = normalize(cross(Math.abs(normal[1]) > 0.9 ? [1, 0, 0] : [0, 1, 0], normal));
      const v = cross(normal, u);
      return faceCells(light, pointM, {
        u: scale(u, side),
        v: scale(v, side),
        normal,
        nu: ROUND_CELLS,
        nv: ROUND_CELLS,
        areaM2: light.areaM2 / 4,
        // A measured ball shines by its own axis, not by its surface.
        profileCosine: dot(normal, light.normal),
      });
    }
    case 'tube': {
      const axis = normalize(light.halfUM);
      const toPoint = sub(pointM, light.centreM);
      const normal = normalize(sub(toPoint, scale(axis, dot(toPoint, axis))));
      const v = scale(cross(axis, normal), Math.hypot(...light.halfVM));
      return faceCells(light, pointM, {
        u: light.halfUM,
        v,
        normal,
        nu: 2 * n,
        nv: 1,
        areaM2: light.areaM2 / Math.PI,
      });
    }
  }
}

interface Face {
  readonly u: Vec3;
  readonly v: Vec3;
  readonly normal: Vec3;
  readonly nu: number;
  readonly nv: number;
  readonly areaM2?: number;
  /** Cosine that the profile is read at, where that is not the one with the face. */
  readonly profileCosine?: number;
}

function faceCells(light: SceneLight, pointM: Vec3, face: Face): LightCell[] {
  const areaM2 = (face.areaM2 ?? light.areaM2) / (face.nu * face.nv);
  const cells: LightCell[] = [];
  for (let i = 0; i < face.nu; i++) {
    for (let j = 0; j < face.nv; j++) {
      const a = (2 * i + 1) / face.nu - 1;
      const b = (2 * j + 1) / face.nv - 1;
      const at: Vec3 = [
        light.centreM[0] + face.u[0] * a + face.v[0] * b,
        light.centreM[1] + face.u[1] * a + face.v[1] * b,
        light.centreM[2] + face.u[2] * a + face.v[2] * b,
      ];
      const cosine = dot(normalize(sub(pointM, at)), face.normal);
      if (cosine <= 0) continue;
      const falloff = (1 - light.edgeFalloff * a * a) * (1 - light.edgeFalloff * b * b);
      cells.push({
        pointM: at,
        weightM2: areaM2 * cosine * falloff * profileAt(light.profile, face.profileCosine ?? cosine),
        sideM: Math.sqrt(areaM2),
      });
    }
  }
  return cells;
}
