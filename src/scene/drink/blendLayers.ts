import type { Vec3 } from '../../core/vec3.ts';
import type { Medium } from '../../materials/surface.ts';

/** A band of drink: what fills it, and its share of all that is poured. */
export interface LayerOfMedium {
  readonly medium: Medium;
  readonly share: number;
}

/** Bands that a run from one drink into another is made of: each differs from the next by less than the eye parts. */
export const BLEND_STEPS = 14;

/**
 * Layers as they lie once they have run into one another: the mixed part of a layer (`blend` of its own volume, lowest) is
 * drawn as thin level bands whose media go evenly from the drink under it to its own. Absorption and scattering of a mixture
 * are those of its parts by their share of the volume (Beer-Lambert law); its index is very nearly so.
 *
 * @param base medium of the drink that the first layer lies on
 */
export function blendLayers(
  base: Medium,
  layers: readonly (LayerOfMedium & { readonly blend: number })[],
): LayerOfMedium[] {
  let under = base;
  return layers.flatMap(({ medium, share, blend }): LayerOfMedium[] => {
    const below = under;
    under = medium;
    if (blend <= 0) return [{ medium, share }];
    const mixed = Array.from({ length: BLEND_STEPS }, (_, k) => ({
      medium: mixMedia(below, medium, (k + 0.5) / BLEND_STEPS),
      share: (share * blend) / BLEND_STEPS,
    }));
    return blend < 1 ? [...mixed, { medium, share: share * (1 - blend) }] : mixed;
  });
}

const NOTHING: Vec3 = [0, 0, 0];
const mix = (a: number, b: number, t: number): number => a + (b - a) * t;
const mixVec = (a: Vec3, b: Vec3, t: number): Vec3 => [mix(a[0], b[0], t), mix(a[1], b[1], t), mix(a[2], b[2], t)];

/** Share `t` by volume of b in a. The mean cosine goes with what scatters. */
export function mixMedia(a: Medium, b: Medium, t: number): Medium {
  const scatteringPerM = mixVec(a.scatteringPerM ?? NOTHING, b.scatteringPerM ?? NOTHING, t);
  const fromA = (1 - t) * Math.max(...(a.scatteringPerM ?? NOTHING));
  const fromB = t * Math.max(...(b.scatteringPerM ?? NOTHING));
  const anisotropy =
    fromA + fromB > 0 ? (fromA * (a.anisotropy ?? 0) + fromB * (b.anisotropy ?? 0)) / (fromA + fromB) : 0;
  return {
    index: mix(a.index, b.index, t),
    absorptionPerM: mixVec(a.absorptionPerM, b.absorptionPerM, t),
    ...(fromA + fromB > 0 ? { scatteringPerM, anisotropy } : {}),
  };
}
