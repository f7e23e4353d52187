import { dot, sub, type Vec3 } from '../../../core/vec3.ts';
import { coverage } from './coverage.ts';
import { lightCells } from './lightCells.ts';
import type { Occluder } from './occluder.ts';
import type { SceneLight } from './sceneLights.ts';

/** A light with what may stand before it. */
export interface ShadedLight {
  readonly light: SceneLight;
  readonly occluders: readonly Occluder[];
}

/**
 * Illuminance of a surface element by all lights, working RGB, lx, without what broad surfaces send on.
 * `recordId` is the thing that the element belongs to, which does not shade itself.
 */
export function directIlluminance(
  lights: readonly ShadedLight[],
  pointM: Vec3,
  normal: Vec3,
  recordId: string | null,
  cellsPerSide: number,
): Vec3 {
  const sum: [number, number, number] = [0, 0, 0];
  for (const { light, occluders } of lights) {
    if (light.recordId === recordId) continue;
    let lxPerNit = 0;
    for (const cell of lightCells(light, pointM, cellsPerSide)) {
      const toCell = sub(cell.pointM, pointM);
      const d2 = Math.max(dot(toCell, toCell), nearestM2(cell.sideM));
      const cosine = dot(toCell, normal) / Math.sqrt(d2);
      if (cosine <= 0) continue;
      lxPerNit += ((cosine * cell.weightM2) / d2) * visibility(occluders, pointM, cell.pointM, cell.sideM, recordId);
    }
    for (const k of [0, 1, 2] as const) sum[k] += light.axialRgbNits[k] * lxPerNit;
  }
  return sum;
}

/** Share of light that gets past all occluders. */
function visibility(
  occluders: readonly Occluder[],
  pointM: Vec3,
  targetM: Vec3,
  cellM: number,
  recordId: string | null,
): number {
  let share = 1;
  for (const occluder of occluders) {
    if (occluder.recordId === recordId && !occluder.shadesItself) continue;
    share *= 1 - (1 - occluder.transmittance) * coverage(occluder, pointM, targetM, cellM);
    if (share === 0) return 0;
  }
  return share;
}

/** Keeps points that touch a light from blowing up: no nearer than a quarter of a cell. */
const nearestM2 = (cellM: number): number => (cellM * cellM) / 16;
