import { fail, ok, type Result } from '../../core/result.ts';
import { luminanceAt, type TracedFrame } from './tracedFrame.ts';

/** Takes frames in one by one, so that only two of them need to be in memory. */
export interface FrameMerge {
  /** Refuses, with one line that names the files and the mend, what does not belong to the frames so far. */
  add(file: string, frame: TracedFrame): Result<true, { readonly message: string }>;
  /** All frames so far as one; null before the first. */
  merged(): TracedFrame | null;
}

/**
 * Merges traces of one frame that differ in their seeds: the mean of each pixel over all samples of all of them, layer by
 * layer, so that the layers still add up to the picture. That is the film that one trace with both sets of samples
 * would have left, up to single-precision rounding. The error of the luminance is carried along from the sums of squares
 * (T. Chan, G. Golub, R. LeVeque, "Updating formulae and a pairwise algorithm for computing sample variances", 1979, eq. 1.5).
 */
export function createFrameMerge(): FrameMerge {
  let total: TracedFrame | null = null;
  const fileOfSeed = new Map<number, string>();
  let firstFile = '';
  return {
    merged: () => total,
    add(file, frame) {
      const shared = frame.stamp.seeds.find((seed) => fileOfSeed.has(seed));
      if (shared !== undefined) {
        return fail({
          message: `${fileOfSeed.get(shared)} and ${file} both hold seed ${shared}, so they repeat each other; trace one again with another --seed`,
        });
      }
      if (total) {
        const reason = differenceOf(total, frame);
        if (reason) return fail({ message: `${firstFile} and ${file} ${reason}` });
      } else firstFile = file;
      for (const seed of frame.stamp.seeds) fileOfSeed.set(seed, file);
      total = total ? mergeTwo(total, frame) : frame;
      return ok(true);
    },
  };
}

const TRACE_AGAIN = 'trace both from the same setup file';

/** Why two frames are not traces of one and the same, and the mend; null when they are. */
function differenceOf(a: TracedFrame, b: TracedFrame): string | null {
  if (a.stamp.traceKey !== b.stamp.traceKey) {
    const [one, other] = [a, b].map(({ stamp }) => `"${stamp.setupTitle}", ${stamp.frameName}`);
    const which = one === other ? 'the setup was changed in between' : `${one} against ${other}`;
    return `show different setups (${which}); ${TRACE_AGAIN}`;
  }
  if (a.widthPx !== b.widthPx || a.heightPx !== b.heightPx) {
    return `differ in size (${a.widthPx} x ${a.heightPx}, ${b.widthPx} x ${b.heightPx}); trace them with the same --width and --height`;
  }
  const layerIds = ({ layers }: TracedFrame): string => layers.map(({ fixtureId }) => fixtureId).join();
  if (JSON.stringify(a.stamp.gains) !== JSON.stringify(b.stamp.gains) || layerIds(a) !== layerIds(b)) {
    return `have the same set, lit differently (a switch, a dimmer or a colour); ${TRACE_AGAIN}`;
  }
  if (a.stamp.bounceOnly !== b.stamp.bounceOnly) {
    return 'hold all light and only what is bounced; trace both with --bounce-only, or both without';
  }
  if (a.stamp.programVersion !== b.stamp.programVersion) {
    return `come from versions ${a.stamp.programVersion} and ${b.stamp.programVersion}; trace both with one version`;
  }
  return null;
}

function mergeTwo(a: TracedFrame, b: TracedFrame): TracedFrame {
  const samples = a.samples.map((n, i) => n + b.samples[i]);
  /** Weight of b's mean in the merged one. */
  const share = Float64Array.from(samples, (n, i) => (n > 0 ? b.samples[i] / n : 0));
  const mean = (x: Float32Array, y: Float32Array): Float32Array =>
    x.map((v, k) => v + (y[k] - v) * share[Math.floor(k / 3)]);
  const luminanceError = samples.map((n, i) => {
    if (n < 2) return Number.POSITIVE_INFINITY;
    const apart = luminanceAt(b.rgb, i * 3) - luminanceAt(a.rgb, i * 3);
    const between = a.samples[i] === 0 || b.samples[i] === 0 ? 0 : apart * apart * a.samples[i] * share[i];
    const squares =
      deviationSquares(a.luminanceError[i], a.samples[i]) +
      deviationSquares(b.luminanceError[i], b.samples[i]) +
      between;
    return Math.sqrt(squares / (n * (n - 1)));
  });
  return {
    ...a,
    stamp: { ...a.stamp, seeds: [...a.stamp.seeds, ...b.stamp.seeds] },
    rgb: mean(a.rgb, b.rgb),
    layers: a.layers.map(({ fixtureId, rgb }, i) => ({ fixtureId, rgb: mean(rgb, b.layers[i].rgb) })),
    samples,
    luminanceError,
  };
}

/** Sum of squared deviations from the mean that a standard error over n samples stands for. */
const deviationSquares = (error: number, n: number): number => (n < 2 ? 0 : error * error * n * (n - 1));
