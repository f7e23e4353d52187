import { applyToDirection, applyToPoint } from '../../../core/rigid.ts';
import { cross, length, sub, type Vec3 } from '../../../core/vec3.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import type { SetModel } from '../../../scene/setModel.ts';
import type { LightField } from './lightField.ts';

/** A broad flat surface that can be seen through a glass or in a gloss, with its mean luminance. */
export interface Backdrop {
  readonly recordId: string;
  readonly originM: Vec3;
  readonly edgeUM: Vec3;
  readonly edgeVM: Vec3;
  readonly rgbNits: Vec3;
}

const LEAST_AREA_M2 = 0.02;
const COVE_STRIPS = 4;

/** Tables, sheets, walls, paper and the faces of plinths and grip, largest first. */
export function backdropsOfSet(set: SetModel, field: LightField): Backdrop[] {
  const luminance = meanLuminance(field);
  const shining = new Set(field.lights.map(({ light }) => light.recordId));
  return set.surfaces
    .filter((s) => !s.emission && s.finish.type !== 'clear' && !isHousing(s) && !shining.has(s.recordId))
    .flatMap((surface) => flatPieces(surface).map((flat) => ({ ...flat, rgbNits: luminance(surface.recordId) })))
    .filter(({ edgeUM, edgeVM }) => length(cross(edgeUM, edgeVM)) >= LEAST_AREA_M2);
}

const isHousing = ({ finish, role }: OpticalSurface): boolean => finish.type === 'black' && /^housing|door/.test(role);

/** Area-weighted mean over the patches of a record. */
function meanLuminance(field: LightField): (recordId: string) => Vec3 {
  const sums = new Map<string, { areaM2: number; rgb: [number, number, number] }>();
  for (const { recordId, areaM2, rgbNits } of field.patches) {
    const sum = sums.get(recordId) ?? { areaM2: 0, rgb: [0, 0, 0] };
    sum.areaM2 += areaM2;
    for (const k of [0, 1, 2] as const) sum.rgb[k] += rgbNits[k] * areaM2;
    sums.set(recordId, sum);
  }
  return (recordId) => {
    const sum = sums.get(recordId);
    return sum ? [sum.rgb[0] / sum.areaM2, sum.rgb[1] / sum.areaM2, sum.rgb[2] / sum.areaM2] : [0, 0, 0];
  };
}

type Flat = Pick<Backdrop, 'recordId' | 'originM' | 'edgeUM' | 'edgeVM'>;

function flatPieces({ shape, worldFromLocal, recordId }: OpticalSurface): Flat[] {
  if (shape.type === 'quad') {
    return [
      {
        recordId,
        originM: applyToPoint(worldFromLocal, shape.originM),
        edgeUM: applyToDirection(worldFromLocal, shape.edgeUM),
        edgeVM: applyToDirection(worldFromLocal, shape.edgeVM),
      },
    ];
  }
  // A cove as flat strips along its axis.
  if (shape.type !== 'revolvedLine' || !shape.azimuth || shape.r0M !== shape.r1M) return [];
  const { startRad, endRad } = shape.azimuth;
  const at = (i: number, y: number): Vec3 => {
    const phi = startRad + ((endRad - startRad) * i) / COVE_STRIPS;
    return applyToPoint(worldFromLocal, [shape.r0M * Math.cos(phi), y, shape.r0M * Math.sin(phi)]);
  };
  return Array.from({ length: COVE_STRIPS }, (_, i) => ({
    recordId,
    originM: at(i, shape.y0M),
    edgeUM: sub(at(i + 1, shape.y0M), at(i, shape.y0M)),
    edgeVM: sub(at(i, shape.y1M), at(i, shape.y0M)),
  }));
}
