import { rec2020FromRec709 } from '../../core/color/spaces.ts';
import { applyToDirection, applyToPoint } from '../../core/rigid.ts';
import { add, addScaled, cross, dot, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import type { CheckInput } from '../contracts.ts';
import type { FrameLight } from './frameLight.ts';
import { backResponse, gatherSamples, perSideForPicture, planeResponse, type Response } from './gatherSource.ts';

/** A small piece of a bounce card or diffusion cloth that sends on the light which falls on it. */
export interface BouncePatch {
  readonly surfaceIndex: number;
  readonly pointM: Vec3;
  readonly normal: Vec3;
  readonly areaM2: number;
  /** Luminance of each side by film layer under its gain: layers x 3, working RGB, cd/m2. */
  readonly frontNits: Float64Array;
  readonly backNits: Float64Array;
  /** Sum over layers, working RGB. */
  readonly frontTotal: Float64Array;
  readonly backTotal: Float64Array;
}

const PATCHES_PER_SIDE = 4;
/** Light to cloth to card: the second pass lets a card stand behind a diffusion frame. */
const PASSES = 2;
/** Faces smaller than this share of a record's largest are the edges of a sheet. */
const EDGE_SHARE = 0.05;

/**
 * Cuts every matte or translucent sheet of grip into 4 x 4 patches and finds their luminance: direct light, then one
 * more bounce among the sheets. Lambertian: L = (reflectance x E on this side + transmittance x E on the other) / pi.
 */
export function createBouncePatches(input: CheckInput, light: FrameLight): BouncePatch[] {
  const patches: BouncePatch[] = [];
  const gripIds = new Set(input.scene.grip.map((item) => item.id));
  const faces = input.set.surfaces
    .map((surface, surfaceIndex) => ({ surface, surfaceIndex, areaM2: quadAreaM2(surface) }))
    .filter(({ surface, areaM2 }) => areaM2 > 0 && gripIds.has(surface.recordId) && scatters(surface));
  const largest = new Map<string, number>();
  for (const { surface, areaM2 } of faces)
    largest.set(surface.recordId, Math.max(areaM2, largest.get(surface.recordId) ?? 0));
  for (const { surface, surfaceIndex, areaM2 } of faces) {
    if (areaM2 < EDGE_SHARE * (largest.get(surface.recordId) ?? 0)) continue;
    patches.push(...cutFace(surface, surfaceIndex, light.layerCount));
  }
  if (patches.length > 0) for (let pass = 0; pass < PASSES; pass++) lightPatches(input, light, patches, pass);
  return patches;
}

/**
 * Illuminance from the patches by film layer, lx under the gains, working RGB, added to `into` (layers x 3).
 */
export function gatherPatches(
  light: FrameLight,
  patches: readonly BouncePatch[],
  pointM: Vec3,
  axis: Vec3,
  response: Response,
  into: Float64Array,
  ignore?: (surfaceIndex: number) => boolean,
): void {
  for (const patch of patches) {
    const d = sub(patch.pointM, pointM);
    const squared = dot(d, d);
    if (squared < 1e-9) continue;
    const distanceM = Math.sqrt(squared);
    const weight = response(dot(d, axis) / distanceM);
    if (weight <= 0) continue;
    const cosPatch = -dot(d, patch.normal) / distanceM;
    const nits = cosPatch > 0 ? patch.frontNits : patch.backNits;
    const total = cosPatch > 0 ? patch.frontTotal : patch.backTotal;
    if (total[0] + total[1] + total[2] <= 0 || light.query.blocked(pointM, patch.pointM, ignore)) continue;
    // A receiver closer than a patch is wide would otherwise see a point source: hold the solid angle under a hemisphere.
    const geometry = Math.min((weight * Math.abs(cosPatch) * patch.areaM2) / squared, Math.PI);
    const step = into.length === 3 ? total : nits;
    for (let k = 0; k < into.length; k++) into[k] += step[k] * geometry;
  }
}

/** Every 2 x 2 patches of a face as one, for picture-grade light. */
export function joinPatches(patches: readonly BouncePatch[]): BouncePatch[] {
  const joined: BouncePatch[] = [];
  for (let face = 0; face < patches.length; face += PATCHES_PER_SIDE ** 2) {
    for (let i = 0; i < PATCHES_PER_SIDE; i += 2) {
      for (let j = 0; j < PATCHES_PER_SIDE; j += 2) {
        const at = face + i * PATCHES_PER_SIDE + j;
        const four = [0, 1, PATCHES_PER_SIDE, PATCHES_PER_SIDE + 1].map((step) => patches[at + step]);
        const mean = (pick: (patch: BouncePatch) => Float64Array): Float64Array =>
          pick(four[0]).map((_, k) => four.reduce((sum, patch) => sum + pick(patch)[k] / 4, 0));
        joined.push({
          ...four[0],
          pointM: scale(
            four.reduce<Vec3>((sum, patch) => add(sum, patch.pointM), [0, 0, 0]),
            1 / 4,
          ),
          areaM2: four[0].areaM2 * 4,
          frontNits: mean((patch) => patch.frontNits),
          backNits: mean((patch) => patch.backNits),
          frontTotal: mean((patch) => patch.frontTotal),
          backTotal: mean((patch) => patch.backTotal),
        });
      }
    }
  }
  return joined;
}

const scatters = ({ finish }: OpticalSurface): boolean => finish.type === 'matte' || finish.type === 'translucent';

const quadAreaM2 = ({ shape }: OpticalSurface): number =>
  shape.type === 'quad' ? length(cross(shape.edgeUM, shape.edgeVM)) : 0;

function cutFace(surface: OpticalSurface, surfaceIndex: number, layerCount: number): BouncePatch[] {
  const { shape, worldFromLocal } = surface;
  if (shape.type !== 'quad') return [];
  const origin = applyToPoint(worldFromLocal, shape.originM);
  const edgeU = applyToDirection(worldFromLocal, shape.edgeUM);
  const edgeV = applyToDirection(worldFromLocal, shape.edgeVM);
  const normal = normalize(cross(edgeU, edgeV));
  const patches: BouncePatch[] = [];
  for (let i = 0; i < PATCHES_PER_SIDE; i++) {
    for (let j = 0; j < PATCHES_PER_SIDE; j++) {
      const alongU = addScaled(origin, edgeU, (i + 0.5) / PATCHES_PER_SIDE);
      patches.push({
        surfaceIndex,
        pointM: addScaled(alongU, edgeV, (j + 0.5) / PATCHES_PER_SIDE),
        normal,
        areaM2: length(cross(edgeU, edgeV)) / PATCHES_PER_SIDE ** 2,
        frontNits: new Float64Array(layerCount * 3),
        backNits: new Float64Array(layerCount * 3),
        frontTotal: new Float64Array(3),
        backTotal: new Float64Array(3),
      });
    }
  }
  return patches;
}

function lightPatches(input: CheckInput, light: FrameLight, patches: readonly BouncePatch[], pass: number): void {
  const before = patches.map((patch) => (pass === 0 ? null : copyPatch(patch)));
  const others = before.filter((patch) => patch !== null);
  patches.forEach((patch) => {
    const front = new Float64Array(light.layerCount * 3);
    const back = new Float64Array(light.layerCount * 3);
    const { finish } = input.set.surfaces[patch.surfaceIndex];
    if (finish.type !== 'matte' && finish.type !== 'translucent') return;
    // Nothing reaches the inside of a card.
    const sides: readonly (readonly [Float64Array, Response])[] =
      finish.type === 'translucent'
        ? [
            [front, planeResponse],
            [back, backResponse],
          ]
        : [[front, planeResponse]];
    for (const [into, response] of sides) {
      gatherDirect(light, patch.pointM, patch.normal, response, into);
      const rest = others.filter((other) => other.surfaceIndex !== patch.surfaceIndex);
      gatherPatches(light, rest, patch.pointM, patch.normal, response, into);
    }
    const reflect = rec2020FromRec709(finish.reflectanceRgb);
    const transmit = finish.type === 'translucent' ? rec2020FromRec709(finish.transmittanceRgb) : ([0, 0, 0] as const);
    patch.frontTotal.fill(0);
    patch.backTotal.fill(0);
    for (let k = 0; k < front.length; k++) {
      const channel = k % 3;
      patch.frontNits[k] = (reflect[channel] * front[k] + transmit[channel] * back[k]) / Math.PI;
      patch.backNits[k] = (reflect[channel] * back[k] + transmit[channel] * front[k]) / Math.PI;
      patch.frontTotal[channel] += patch.frontNits[k];
      patch.backTotal[channel] += patch.backNits[k];
    }
  });
}

const copyPatch = (patch: BouncePatch): BouncePatch => ({
  ...patch,
  frontNits: patch.frontNits.slice(),
  backNits: patch.backNits.slice(),
  frontTotal: patch.frontTotal.slice(),
  backTotal: patch.backTotal.slice(),
});

function gatherDirect(light: FrameLight, pointM: Vec3, normal: Vec3, response: Response, into: Float64Array): void {
  for (const { source, samples } of light.pictureSources) {
    const points = samples ?? light.samplesOf(source, perSideForPicture(source, pointM) + 1);
    const lux = gatherSamples(light, source, points, pointM, normal, response);
    const at = source.emitter.layerIndex * 3;
    for (let k = 0; k < 3; k++) into[at + k] += lux * source.gainRgb[k];
  }
}
