import { rec2020FromRec709 } from '../../core/color/spaces.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { meanReflectanceRgb } from '../../materials/finishPattern.ts';
import { diffuseReflectanceInside } from '../../materials/fresnel.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { type BouncePatch, gatherPatches } from './bouncePatch.ts';
import type { FrameLight } from './frameLight.ts';
import { backResponse, gatherReceivers, perSideForPicture, planeResponse, type Response } from './gatherSource.ts';
import { gatherMirrored, type ThrowingMirror } from './mirroredLight.ts';

/** Reflectance on both sides and transmittance of a patch, working RGB. */
interface Scatter {
  readonly reflect: Vec3;
  readonly transmit: Vec3;
  readonly isTranslucent: boolean;
}

/** Light that one patch sends to another: which side of each, and cos cos area / distance^2. */
interface Link {
  readonly from: number;
  readonly fromFront: boolean;
  readonly to: number;
  readonly toFront: boolean;
  readonly geometry: number;
}

/** Links that pass less than this share of a patch's light do not count. */
const LEAST_GEOMETRY = 2e-4;

export interface SolveOptions {
  /** Other lit patches that light these. */
  readonly given?: readonly BouncePatch[];
  /** Flat mirrors that throw the light of lamps on them. */
  readonly mirrors?: readonly ThrowingMirror[];
  /** Surfaces that cast no shadow. */
  readonly ignore?: (surfaceIndex: number) => boolean;
}

/**
 * Finds the luminance of every patch under direct light, light from `given` patches, and `passes` rounds of light among
 * themselves. Lambertian: L = (reflectance x E on this side + transmittance x E on the other) / pi. Patches of one flat
 * surface never see one another; those of a curved one do.
 */
export function solvePatches(
  light: FrameLight,
  surfaces: readonly OpticalSurface[],
  patches: readonly BouncePatch[],
  passes: number,
  { given = [], mirrors = [], ignore }: SolveOptions = {},
): void {
  const scatters = patches.map((patch) => scatterOf(surfaces[patch.surfaceIndex]));
  const width = light.layerCount * 3;
  const direct = patches.map((patch, i) => {
    const front = new Float64Array(width);
    const back = new Float64Array(width);
    // Nothing reaches the inside of a card.
    const sides: readonly (readonly [Float64Array, Response])[] = scatters[i].isTranslucent
      ? [
          [front, planeResponse],
          [back, backResponse],
        ]
      : [[front, planeResponse]];
    for (const [into, response] of sides) {
      gatherDirect(light, patch.pointM, patch.normal, response, into, ignore);
      gatherPatches(light, given, patch.pointM, patch.normal, response, into, { ignore });
      if (mirrors.length === 0) continue;
      const thrown = new Float64Array(width);
      gatherMirrored(light, mirrors, patch.pointM, patch.normal, response, thrown);
      const sum = into === front ? patch.mirrored?.front : patch.mirrored?.back;
      for (let k = 0; k < width; k++) {
        into[k] += thrown[k];
        if (sum) sum[k % 3] += thrown[k];
      }
    }
    return { front, back };
  });
  const links = passes > 0 ? linkPatches(light, surfaces, patches, scatters, ignore) : [];
  patches.forEach((patch, i) => {
    setNits(patch, scatters[i], direct[i].front, direct[i].back);
  });
  for (let pass = 0; pass < passes; pass++) {
    const fronts = direct.map(({ front }) => front.slice());
    const backs = direct.map(({ back }) => back.slice());
    for (const { from, fromFront, to, toFront, geometry } of links) {
      const nits = fromFront ? patches[from].frontNits : patches[from].backNits;
      const into = toFront ? fronts[to] : backs[to];
      for (let k = 0; k < width; k++) into[k] += nits[k] * geometry;
    }
    patches.forEach((patch, i) => {
      setNits(patch, scatters[i], fronts[i], backs[i]);
    });
  }
}

function linkPatches(
  light: FrameLight,
  surfaces: readonly OpticalSurface[],
  patches: readonly BouncePatch[],
  scatters: readonly Scatter[],
  ignore?: (surfaceIndex: number) => boolean,
): Link[] {
  const links: Link[] = [];
  for (let i = 0; i < patches.length; i++) {
    const a = patches[i];
    const isFlat = surfaces[a.surfaceIndex].shape.type === 'quad';
    for (let j = i + 1; j < patches.length; j++) {
      const b = patches[j];
      if (isFlat && a.surfaceIndex === b.surfaceIndex) continue;
      const dx = b.pointM[0] - a.pointM[0];
      const dy = b.pointM[1] - a.pointM[1];
      const dz = b.pointM[2] - a.pointM[2];
      const squared = dx * dx + dy * dy + dz * dz;
      if (squared < 1e-9) continue;
      const inverse = 1 / Math.sqrt(squared);
      const cosA = (dx * a.normal[0] + dy * a.normal[1] + dz * a.normal[2]) * inverse;
      const cosB = -(dx * b.normal[0] + dy * b.normal[1] + dz * b.normal[2]) * inverse;
      if ((cosA < 0 && !scatters[i].isTranslucent) || (cosB < 0 && !scatters[j].isTranslucent)) continue;
      const both = Math.abs(cosA * cosB) / squared;
      if (both * Math.max(a.areaM2, b.areaM2) < LEAST_GEOMETRY) continue;
      if (light.query.blocked(a.pointM, b.pointM, ignore)) continue;
      const [aFront, bFront] = [cosA > 0, cosB > 0];
      const reach = (areaM2: number): number => Math.min(both * areaM2, Math.PI);
      links.push({ from: i, fromFront: aFront, to: j, toFront: bFront, geometry: reach(a.areaM2) });
      links.push({ from: j, fromFront: bFront, to: i, toFront: aFront, geometry: reach(b.areaM2) });
    }
  }
  return links;
}

function setNits(patch: BouncePatch, { reflect, transmit }: Scatter, front: Float64Array, back: Float64Array): void {
  patch.frontTotal.fill(0);
  patch.backTotal.fill(0);
  for (let k = 0; k < front.length; k++) {
    const channel = k % 3;
    patch.frontNits[k] = (reflect[channel] * front[k] + transmit[channel] * back[k]) / Math.PI;
    patch.backNits[k] = (reflect[channel] * back[k] + transmit[channel] * front[k]) / Math.PI;
    patch.frontTotal[channel] += patch.frontNits[k];
    patch.backTotal[channel] += patch.backNits[k];
  }
}

/** A coat lets light to its base and back out: (1 - R)^2 r / (1 - r R), R the coat's mean reflectance from inside. */
function scatterOf({ finish }: OpticalSurface): Scatter {
  const none: Vec3 = [0, 0, 0];
  switch (finish.type) {
    case 'matte':
      return { reflect: rec2020FromRec709(meanReflectanceRgb(finish)), transmit: none, isTranslucent: false };
    case 'translucent':
      return {
        reflect: rec2020FromRec709(meanReflectanceRgb(finish)),
        transmit: rec2020FromRec709(finish.transmittanceRgb),
        isTranslucent: true,
      };
    case 'gloss': {
      const inside = diffuseReflectanceInside(finish.coatIndex);
      // Mean transmittance is the same both ways but for n^2: T in = 1 - Re, T out = T in / n^2 = 1 - Ri.
      const inward = (1 - inside) * finish.coatIndex ** 2;
      const [r, g, b] = rec2020FromRec709(meanReflectanceRgb(finish));
      const through = (c: number): number => (inward * (1 - inside) * c) / (1 - c * inside);
      return { reflect: [through(r), through(g), through(b)], transmit: none, isTranslucent: false };
    }
    default:
      return { reflect: none, transmit: none, isTranslucent: false };
  }
}

function gatherDirect(
  light: FrameLight,
  pointM: Vec3,
  normal: Vec3,
  response: Response,
  into: Float64Array,
  ignore?: (surfaceIndex: number) => boolean,
): void {
  for (const { source, samples } of light.pictureSources) {
    const points = samples ?? light.samplesOf(source, perSideForPicture(source, pointM) + 1);
    const lux = gatherReceivers(light, source, points, pointM, [{ axis: normal, response }], ignore)[0];
    const at = source.emitter.layerIndex * 3;
    for (let k = 0; k < 3; k++) into[at + k] += lux * source.gainRgb[k];
  }
}
