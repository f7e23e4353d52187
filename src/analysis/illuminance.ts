import { luminanceFromRec2020 } from '../core/color/spaces.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { KeptSide } from './keep/keptPlaces.ts';
import { type BouncePatch, gatherPatches } from './light/bouncePatch.ts';
import type { FrameLight, LightSource } from './light/frameLight.ts';
import { domeResponse, gatherCone, gatherReceivers, planeResponse, type Receiver } from './light/gatherSource.ts';

/** What catches the light: a flat cell with its normal, or a dome whose axis points where the meter is pointed. */
export type Receptor =
  | { readonly type: 'plane'; readonly normal: Vec3 }
  | { readonly type: 'dome'; readonly axis: Vec3 };

export interface Illuminance {
  readonly totalLux: number;
  /** By film layer under its gain, lx; sums to the total. Order of `SetModel.layerFixtureIds`. */
  readonly layerLux: Float64Array;
  /** The part of it that comes straight from the fixture. */
  readonly directLayerLux: Float64Array;
  /** Part of the total that comes by way of the patches that were given. */
  readonly bounceLux: number;
}

export interface IlluminanceOptions {
  /** Surfaces that cast no shadow, for example the hero while the meter stands in its place. */
  readonly ignore?: (surfaceIndex: number) => boolean;
  /** Bounce cards, diffusion cloth, matte parts of the set, lit; none when left out. */
  readonly patches?: readonly BouncePatch[];
  /** By receptor, what was found at this very place before for the same receptors, patches and ignored surfaces. */
  readonly kept?: readonly KeptSide[];
  /** Relative change at which halving the cells stops; 0.001 when left out. */
  readonly tolerance?: number;
}

const FIRST_PER_SIDE = 8;
const LAST_PER_SIDE = 64;
/** An edge across one patch of a cloth leaves an error of a few thousandths of the whole at this. */
const LAST_PER_PATCH_SIDE = 16;

/**
 * Illuminance at a point from every emitter with visibility, lx (photometric: weighted by CIE luminance of the working
 * colour), by midpoint quadrature over the emitters' areas. The grid is doubled until the figure moves by less than the
 * tolerance. Clear glass lets light through without loss or bending.
 *
 * A plane weighs by max(0, cos). A dome weighs by (1 + cos) / 2, a cardioid: full on its axis, half from the side,
 * nothing from behind (approximation of the hemispherical receptor of ISO 2720 meters).
 */
export const measureIlluminance = (
  light: FrameLight,
  pointM: Vec3,
  receptor: Receptor,
  options: IlluminanceOptions = {},
): Illuminance => measureIlluminances(light, pointM, [receptor], options)[0];

/** The same for several receptors in one place, which share their shadow rays. */
export function measureIlluminances(
  light: FrameLight,
  pointM: Vec3,
  receptors: readonly Receptor[],
  options: IlluminanceOptions = {},
): Illuminance[] {
  const receivers = receptors.map(
    (receptor): Receiver =>
      receptor.type === 'plane'
        ? { axis: receptor.normal, response: planeResponse }
        : { axis: receptor.axis, response: domeResponse },
  );
  const layerLux = receptors.map(() => new Float64Array(light.layerCount));
  for (const sources of byFixture(light.sources)) {
    const known = sources.map(({ emitterIndex }) => options.kept?.map(({ lux }) => lux[emitterIndex]));
    const found = known.every((figures) => figures && !figures.some(Number.isNaN))
      ? known
      : refineSources(light, sources, pointM, receivers, options);
    sources.forEach(({ emitter, emitterIndex, luminanceGain }, at) => {
      found[at]?.forEach((lux, i) => {
        if (options.kept) options.kept[i].lux[emitterIndex] = lux;
        layerLux[i][emitter.layerIndex] += lux * luminanceGain;
      });
    });
  }
  return receivers.map(({ axis, response }, i) => {
    const own = layerLux[i];
    const directLayerLux = own.slice();
    const directLux = own.reduce((sum, lux) => sum + lux, 0);
    if (options.patches && options.patches.length > 0) {
      const bounced = new Float64Array(light.layerCount * 3);
      gatherPatches(light, options.patches, pointM, axis, response, bounced, {
        ignore: options.ignore,
        reach: options.kept?.[i].reach,
      });
      for (let layer = 0; layer < light.layerCount; layer++) {
        const at = layer * 3;
        own[layer] += luminanceFromRec2020([bounced[at], bounced[at + 1], bounced[at + 2]]);
      }
    }
    const totalLux = own.reduce((sum, lux) => sum + lux, 0);
    return { totalLux, layerLux: own, directLayerLux, bounceLux: totalLux - directLux };
  });
}

function byFixture(sources: readonly LightSource[]): LightSource[][] {
  const groups = new Map<string, LightSource[]>();
  for (const source of sources) {
    const group = groups.get(source.emitter.fixtureId);
    if (group) group.push(source);
    else groups.set(source.emitter.fixtureId, [source]);
  }
  return [...groups.values()];
}

/**
 * Doubles the grid over each emitter of a fixture until every receiver's figure holds still; of the many patches of a cloth,
 * each by its part of the whole, for one half hidden by an edge would ask for no end of points.
 */
function refineSources(
  light: FrameLight,
  sources: readonly LightSource[],
  pointM: Vec3,
  receivers: readonly Receiver[],
  { ignore, tolerance = 1e-3 }: IlluminanceOptions,
): Float64Array[] {
  const gather = (source: LightSource, perSide: number): Float64Array =>
    (source.sphereRadiusM > 0 ? gatherCone(light, source, perSide, pointM, receivers, ignore) : null) ??
    gatherReceivers(light, source, light.samplesOf(source, perSide), pointM, receivers, ignore);
  const first = sources.map((source) => gather(source, firstPerSide(source, pointM)));
  const whole = receivers.map((_, i) => first.reduce((sum, figures) => sum + figures[i], 0));
  return sources.map((source, at) => {
    let perSide = firstPerSide(source, pointM);
    let coarse = first[at];
    const last = source.isOneOfMany ? LAST_PER_PATCH_SIDE : LAST_PER_SIDE;
    while (perSide < last) {
      perSide *= 2;
      const fine = gather(source, perSide);
      const isStill = fine.every(
        (lux, i) => Math.abs(lux - coarse[i]) <= tolerance * (source.isOneOfMany ? whole[i] : lux),
      );
      if (isStill) return fine;
      coarse = fine;
    }
    return coarse;
  });
}

/** A small far emitter and a bulb start with fewer points, and one patch of many with fewer still. */
function firstPerSide(source: LightSource, pointM: Vec3): number {
  if (source.sphereRadiusM > 0) return FIRST_PER_SIDE / 2;
  const c = source.emitter.centreM;
  const distanceM = Math.hypot(c[0] - pointM[0], c[1] - pointM[1], c[2] - pointM[2]);
  if (source.sizeM >= 0.15 * distanceM) return FIRST_PER_SIDE;
  return source.isOneOfMany ? FIRST_PER_SIDE / 4 : FIRST_PER_SIDE / 2;
}
