import { rec2020FromRec709 } from '../../../core/color/spaces.ts';
import { applyToDirection, applyToPoint } from '../../../core/rigid.ts';
import { add, addScaled, cross, dot, length, multiply, normalize, scale, sub, type Vec3 } from '../../../core/vec3.ts';
import type { Finish } from '../../../materials/finish.ts';
import { meanReflectanceRgb } from '../../../materials/finishPattern.ts';
import { diffuseReflectanceInside } from '../../../materials/fresnel.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import type { SetModel } from '../../../scene/setModel.ts';
import { coverage } from './coverage.ts';
import { directIlluminance, type ShadedLight } from './directIlluminance.ts';
import type { Occluder } from './occluder.ts';

/** A piece of a broad matte surface that sends on the light which falls on it. */
export interface BouncePatch {
  readonly recordId: string;
  readonly centreM: Vec3;
  readonly normal: Vec3;
  readonly areaM2: number;
  /** Working RGB, cd/m2. */
  readonly rgbNits: Vec3;
}

/** Faces smaller than a hand brighten nothing. */
const LEAST_AREA_M2 = 0.008;
/** Aimed-at area of one patch; broad surfaces are cut to it as far as the number of patches allows. */
const PATCH_AREA_M2 = 0.1;
const MOST_PER_SIDE = 4;
/** Near the subject a patch is no longer than this share of its distance, down to the fourth part of a side. */
const NEAR_SHARE = 0.8;
const MOST_HALVINGS = 3;
const CELLS = 3;
const LAID_ON_WITHIN_M = 0.02;

/** Times that light goes on from patch to patch. */
const BOUNCES = 2;

/**
 * Light off tables, backdrops and plinths: the `most` patches that give the subject most, with their luminance under the
 * lights. Surfaces are cut finer toward the subject at `aboutM`, so that the table round a small thing lights its sides.
 */
export function bouncePatches(
  set: SetModel,
  lights: readonly ShadedLight[],
  occluders: readonly Occluder[],
  most: number,
  aboutM: Vec3,
): BouncePatch[] {
  const direct = set.surfaces.flatMap((surface) => {
    const albedo = matteReflectance(surface.finish);
    if (!albedo || surface.emission || lights.some(({ light }) => light.recordId === surface.recordId)) return [];
    const open = cellsOf(surface, aboutM).filter((cell) => !isCovered(cell, surface.recordId, occluders));
    return open.map((cell) => {
      const at = addScaled(cell.centreM, cell.normal, 1e-4);
      const lux = directIlluminance(lights, at, cell.normal, surface.recordId, CELLS);
      return { patch: { ...cell, recordId: surface.recordId, rgbNits: sentOn(lux, albedo) }, lux, albedo };
    });
  });
  let patches: BouncePatch[] = direct.map(({ patch }) => patch);
  for (let i = 1; i < BOUNCES; i++) {
    const before = patches;
    patches = direct.map(({ patch, lux, albedo }) => ({
      ...patch,
      rgbNits: sentOn(add(lux, patchIlluminance(before, patch.centreM, patch.normal)), albedo),
    }));
  }
  const strength = ({ rgbNits, areaM2, centreM }: BouncePatch): number => {
    const d = sub(centreM, aboutM);
    return (Math.max(...rgbNits) * areaM2) / (dot(d, d) + areaM2);
  };
  const total = (some: readonly BouncePatch[]): number => some.reduce((sum, patch) => sum + strength(patch), 0);
  const lit = patches.filter((patch) => strength(patch) > 0).sort((a, b) => strength(b) - strength(a));
  const kept = lit.slice(0, most);
  // What is left out is shared among what is kept, so that the subject stays as bright.
  const share = total(lit) / Math.max(total(kept), 1e-12);
  return kept.map((patch) => ({ ...patch, rgbNits: scale(patch.rgbNits, share) }));
}

const sentOn = (lux: Vec3, albedo: Vec3): Vec3 => scale(multiply(lux, albedo), 1 / Math.PI);

/**
 * Illuminance that patches give, working RGB, lx; nothing stands in their way. A patch counts as a disc of its area
 * seen from near its axis: E = pi L cos cos A / (pi d^2 + A). Twin: `lightingGlsl.ts`.
 */
export function patchIlluminance(patches: readonly BouncePatch[], pointM: Vec3, normal: Vec3): Vec3 {
  const sum: [number, number, number] = [0, 0, 0];
  for (const patch of patches) {
    const d = sub(patch.centreM, pointM);
    const d2 = Math.max(dot(d, d), 1e-9);
    const inverse = 1 / Math.sqrt(d2);
    const here = dot(d, normal) * inverse;
    const there = -dot(d, patch.normal) * inverse;
    if (here <= 0 || there <= 0) continue;
    const lxPerNit = (Math.PI * here * there * patch.areaM2) / (Math.PI * d2 + patch.areaM2);
    for (const k of [0, 1, 2] as const) sum[k] += patch.rgbNits[k] * lxPerNit;
  }
  return sum;
}

/** Share of light that a finish sends back in all directions, working RGB; null where it sends none. */
export function matteReflectance(finish: Finish): Vec3 | null {
  switch (finish.type) {
    case 'matte':
    case 'translucent':
      return rec2020FromRec709(meanReflectanceRgb(finish));
    case 'gloss': {
      const inside = diffuseReflectanceInside(finish.coatIndex);
      const enter = (1 - inside) * finish.coatIndex ** 2;
      const base = rec2020FromRec709(meanReflectanceRgb(finish));
      const out = (rho: number): number => (enter * rho * (1 - inside)) / (1 - rho * inside);
      return [out(base[0]), out(base[1]), out(base[2])];
    }
    case 'metal':
    case 'mirror':
    case 'clear':
    case 'black':
      return null;
  }
}

/** Does something lie right on top of it, as a sheet of acrylic on a table? */
function isCovered({ centreM, normal }: Cell, recordId: string, occluders: readonly Occluder[]): boolean {
  const above = addScaled(centreM, normal, LAID_ON_WITHIN_M);
  return occluders.some((o) => o.recordId !== recordId && coverage(o, centreM, above, LAID_ON_WITHIN_M / 100) > 0.5);
}

type Cell = Pick<BouncePatch, 'centreM' | 'normal' | 'areaM2'>;

function cellsOf({ shape, worldFromLocal }: OpticalSurface, aboutM: Vec3): Cell[] {
  if (shape.type === 'quad') {
    const normal = normalize(applyToDirection(worldFromLocal, cross(shape.edgeUM, shape.edgeVM)));
    const areaM2 = length(cross(shape.edgeUM, shape.edgeVM));
    if (areaM2 < LEAST_AREA_M2) return [];
    const count = (edgeM: number): number =>
      Math.min(MOST_PER_SIDE, Math.max(1, Math.round(edgeM / Math.sqrt(PATCH_AREA_M2))));
    const nu = count(length(shape.edgeUM));
    const nv = count(length(shape.edgeVM));
    const cells: Cell[] = [];
    /** A part of the face from (a, b), `da` by `db` of its sides. */
    const add = (a: number, b: number, da: number, db: number, halvings: number): void => {
      const local = addScaled(addScaled(shape.originM, shape.edgeUM, a + da / 2), shape.edgeVM, b + db / 2);
      const centreM = applyToPoint(worldFromLocal, local);
      const [uM, vM] = [da * length(shape.edgeUM), db * length(shape.edgeVM)];
      const mostM = NEAR_SHARE * length(sub(centreM, aboutM));
      if (halvings === MOST_HALVINGS || Math.max(uM, vM) <= mostM) {
        cells.push({ centreM, normal, areaM2: areaM2 * da * db });
        return;
      }
      const [ku, kv] = [uM > mostM ? 2 : 1, vM > mostM ? 2 : 1];
      for (let i = 0; i < ku; i++) {
        for (let k = 0; k < kv; k++) add(a + (i * da) / ku, b + (k * db) / kv, da / ku, db / kv, halvings + 1);
      }
    };
    for (let i = 0; i < nu * nv; i++) add((i % nu) / nu, Math.floor(i / nu) / nv, 1 / nu, 1 / nv, 0);
    return cells;
  }
  // A cove: strips of a cylinder, straight along its axis.
  if (shape.type !== 'revolvedLine' || !shape.azimuth || shape.r0M !== shape.r1M) return [];
  const { startRad, endRad } = shape.azimuth;
  const lengthM = Math.abs(shape.y1M - shape.y0M);
  const areaM2 = shape.r0M * (endRad - startRad) * lengthM;
  if (areaM2 < LEAST_AREA_M2) return [];
  // The front is on the right hand of the walk: outward when it climbs.
  const side = shape.y1M > shape.y0M ? 1 : -1;
  const along = 3;
  const turns = 2;
  return Array.from({ length: along * turns }, (_, i) => {
    const phi = startRad + ((endRad - startRad) * (Math.floor(i / along) + 0.5)) / turns;
    const y = shape.y0M + ((shape.y1M - shape.y0M) * ((i % along) + 0.5)) / along;
    return {
      centreM: applyToPoint(worldFromLocal, [shape.r0M * Math.cos(phi), y, shape.r0M * Math.sin(phi)]),
      normal: applyToDirection(worldFromLocal, [side * Math.cos(phi), 0, side * Math.sin(phi)]),
      areaM2: areaM2 / (along * turns),
    };
  });
}
