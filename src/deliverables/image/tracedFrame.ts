import type { Camera } from '../../camera/records.ts';
import { LUMINANCE_WEIGHTS_REC709 } from '../../core/color/spaces.ts';
import type { Film } from '../../transport/contracts.ts';
import { composeFilm, pixelErrors } from '../../transport/cpu/film.ts';
import { rec709SamplesFromWorking } from './linearImage.ts';

/** Where a traced frame came from: what has to agree before two may be merged, and what has to differ. */
export interface FrameStamp {
  readonly setupTitle: string;
  readonly frameId: string;
  readonly frameName: string;
  /** Stands for all that the traced light depends on (`traceKey`). */
  readonly traceKey: string;
  readonly programVersion: string;
  /** Seeds of all the traces in it. */
  readonly seeds: readonly number[];
  /** Gains of all fixtures by id, working RGB: the light as it was set. */
  readonly gains: Readonly<Record<string, readonly number[]>>;
  /** Only what bounces add, without the light that comes straight from a fixture. */
  readonly bounceOnly: boolean;
  readonly camera: Camera;
}

/** One fixture's share of the picture as lit. */
export interface FrameLayer {
  readonly fixtureId: string;
  /** width x height x 3, linear Rec. 709, cd/m2. */
  readonly rgb: Float32Array;
}

/** A traced frame as a file holds it: means over the samples of each pixel, and how many there were. */
export interface TracedFrame {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly stamp: FrameStamp;
  /** width x height x 3, linear Rec. 709, cd/m2; the sum of the layers. */
  readonly rgb: Float32Array;
  /** Lit fixtures; the others are black and left out. */
  readonly layers: readonly FrameLayer[];
  readonly samples: Float32Array;
  /** Estimated standard error of each pixel's luminance, cd/m2; infinite with fewer than two samples. */
  readonly luminanceError: Float32Array;
}

/** The frame that a film shows under its gains. */
export function tracedFrameOf(film: Film, layerGains: Float32Array, stamp: FrameStamp): TracedFrame {
  const layers = film.layerIds.flatMap((fixtureId, layer) => {
    const alone = new Float32Array(film.layerIds.length * 3);
    alone.set(layerGains.subarray(layer * 3, layer * 3 + 3), layer * 3);
    return alone.some((gain) => gain > 0)
      ? [{ fixtureId, rgb: rec709SamplesFromWorking(composeFilm(film, alone)) }]
      : [];
  });
  return {
    widthPx: film.widthPx,
    heightPx: film.heightPx,
    stamp,
    rgb: rec709SamplesFromWorking(composeFilm(film, layerGains)),
    layers,
    samples: Float32Array.from(film.samples),
    luminanceError: pixelErrors(film),
  };
}

/** Gains by fixture id, for the stamp. */
export const gainsById = (layerIds: readonly string[], layerGains: Float32Array): Record<string, number[]> =>
  Object.fromEntries(layerIds.map((id, i) => [id, Array.from(layerGains.subarray(i * 3, i * 3 + 3))]));

/** Luminance of linear Rec. 709 RGB at place `k` of an interleaved picture. */
export const luminanceAt = (rgb: Float32Array, k: number): number =>
  LUMINANCE_WEIGHTS_REC709[0] * rgb[k] +
  LUMINANCE_WEIGHTS_REC709[1] * rgb[k + 1] +
  LUMINANCE_WEIGHTS_REC709[2] * rgb[k + 2];

/** Root mean square of the pixels' errors over the mean luminance, the largest 1 % of errors left out; as `relativeError`. */
export function frameGrain(frame: TracedFrame): number {
  let sum = 0;
  let traced = 0;
  for (let i = 0, k = 0; i < frame.samples.length; i++, k += 3) {
    if (frame.samples[i] === 0) continue;
    sum += luminanceAt(frame.rgb, k);
    traced++;
  }
  const errors = frame.luminanceError.filter(Number.isFinite).sort();
  if (sum === 0 || errors.length === 0) return Number.POSITIVE_INFINITY;
  const keep = Math.max(1, Math.floor(errors.length * 0.99));
  let squares = 0;
  for (let i = 0; i < keep; i++) squares += errors[i] * errors[i];
  return Math.sqrt(squares / keep) / (sum / traced);
}
