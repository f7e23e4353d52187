import type { CameraView } from '../../camera/view.ts';
import { applyToDirection, applyToPoint } from '../../core/rigid.ts';
import { addScaled, cross, dot, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { Finish } from '../../materials/finish.ts';
import type { OpticalSurface } from '../../materials/surface.ts';

/** The one flat surface whose mirror image the quick picture shows in full. */
export interface MirrorPlane {
  readonly surface: OpticalSurface;
  readonly pointM: Vec3;
  /** Unit, toward the lens. */
  readonly normal: Vec3;
  readonly roughness: number;
}

/** Rougher than this a picture in the surface has no outlines. */
const ROUGHEST_MIRROR = 0.25;
const LEAST_AREA_M2 = 0.005;

/** Of all flat, smooth surfaces that face the lens, the one that looks largest from there. Null when there is none. */
export function chooseMirror(surfaces: readonly OpticalSurface[], view: CameraView): MirrorPlane | null {
  let best: MirrorPlane | null = null;
  let bestSr = 0;
  for (const surface of surfaces) {
    const roughness = mirrorRoughness(surface.finish);
    const { shape, worldFromLocal } = surface;
    if (roughness === null || shape.type !== 'quad' || surface.emission) continue;
    const area = cross(shape.edgeUM, shape.edgeVM);
    const areaM2 = length(area);
    if (areaM2 < LEAST_AREA_M2) continue;
    const middle = scale(addScaled(addScaled(scale(shape.originM, 2), shape.edgeUM, 1), shape.edgeVM, 1), 0.5);
    const pointM = applyToPoint(worldFromLocal, middle);
    const toLens = sub(view.originM, pointM);
    const front = normalize(applyToDirection(worldFromLocal, area));
    const facing = dot(front, toLens);
    // Only the fronts of closed bodies can be seen; of single sheets, either side.
    if (facing <= 0) continue;
    const solidAngleSr = (areaM2 * facing) / length(toLens) ** 3;
    if (solidAngleSr <= bestSr) continue;
    bestSr = solidAngleSr;
    best = { surface, pointM, normal: front, roughness };
  }
  return best;
}

function mirrorRoughness(finish: Finish): number | null {
  switch (finish.type) {
    case 'mirror':
      return 0;
    case 'gloss':
    case 'metal':
      return finish.roughness <= ROUGHEST_MIRROR ? finish.roughness : null;
    default:
      return null;
  }
}
