import type { CheckInput } from '../../src/analysis/contracts.ts';
import {
  GLASS_NOTE_OVER_BLACK_STOPS,
  GLASS_NOTE_STOPS,
  MIRROR_LIKE_ROUGHNESS,
  REFLECTION_NOTE_STOPS,
  REFLECTION_SEEN_STOPS,
} from '../../src/analysis/limits.ts';
import type { LongFrame } from './longFrame.ts';
import type { NamedImage } from './namedImages.ts';

/** What one source shows by way of one first thing, in one manner, measured in the traced frame. */
export interface TracedImage {
  /** Id that a finding of it would have. */
  readonly id: string;
  readonly sourceId: string;
  readonly firstId: string;
  /** A mirror image in something that is not glass: told by its largest step over what is round it, whatever its size. */
  readonly isPlain: boolean;
  /** Where it is bright enough to be told. For a plain one, every patch of it that is, or the one with the most stops. */
  readonly pixels: readonly number[];
  /** Where it adds a tenth of a stop or more. */
  readonly seenPixels: number;
  /** Stops over its surroundings. */
  readonly stops: number;
  /** How much of the frame, in pixels, would be bright enough if the limits were so many stops higher. */
  pixelsAt(higherStops: number): number;
}

const RING_STEPS = 2;
const MIN_RING = 4;

/**
 * Every image of a source in the traced frame, measured as docs/checks/reflections.md says. A plain mirror image: mean luminance
 * of a connected patch over the median of the two-pixel ring round it. Anything else: the samples to which it adds half a stop and
 * which stand a stop over the median of the ring round the whole image and two stops over black.
 */
export function judgeFrame(frame: LongFrame, input: CheckInput, blackNits: number): TracedImage[] {
  const glassIds = new Set(input.scene.pieces.filter(({ kind }) => kind === 'glass').map(({ id }) => id));
  const sheenIds = new Set(
    input.set.surfaces
      .filter(
        ({ finish }) => 'roughness' in finish && finish.type !== 'clear' && finish.roughness > MIRROR_LIKE_ROUGHNESS,
      )
      .map(({ recordId }) => recordId),
  );
  const seenOf = new Map<NamedImage, Uint8Array>(
    frame.images.map((image) => [image, seenPixels(frame, image, blackNits)]),
  );
  return frame.images.flatMap((image): TracedImage[] => {
    const seen = seenOf.get(image) ?? new Uint8Array(0);
    const shine = new Uint8Array(seen.length);
    for (const [other, mask] of seenOf)
      if (other.sourceId === image.sourceId) for (let i = 0; i < mask.length; i++) shine[i] |= mask[i];
    const isPlain = image.direct && !image.transmitted && !glassIds.has(image.firstId) && !sheenIds.has(image.firstId);
    const all = [...seen.keys()].filter((i) => seen[i]);
    if (all.length === 0) return [];
    const { sourceId, firstId } = image;
    const common = { id: findingId(image, isPlain), sourceId, firstId, isPlain, seenPixels: all.length };
    const meanOf = (pixels: readonly number[]): number =>
      pixels.reduce((sum, i) => sum + frame.totalNits[i], 0) / pixels.length;
    if (!isPlain) {
      const around = Math.max(blackNits, surroundingsOf(frame, image, all, shine));
      const shown = samplesByPixel(frame, image);
      // A sheen is smooth and so is what lies under it: the noise of single pixels would find bright ones anywhere.
      const rest = sheenIds.has(image.firstId) && image.direct ? smoothRest(frame, image) : restOf(frame, image);
      const brightAt = (higherStops: number): { pixels: number[]; area: number; mean: number } => {
        const least =
          Math.max(around * 2 ** GLASS_NOTE_STOPS, blackNits * 2 ** GLASS_NOTE_OVER_BLACK_STOPS) * 2 ** higherStops;
        const ownShare = 1 - 2 ** -(REFLECTION_NOTE_STOPS + higherStops);
        const pixels = new Set<number>();
        let [count, sum] = [0, 0];
        const look = (pixel: number, own: number, times: number): void => {
          const nits = own + rest[pixel];
          if (times === 0 || nits < least || own < ownShare * nits) return;
          pixels.add(pixel);
          count += times;
          sum += times * nits;
        };
        for (const { pixel, sharp } of shown) for (const own of sharp) look(pixel, own + image.blurredNits[pixel], 1);
        for (const { pixel, sharp } of shown)
          look(pixel, image.blurredNits[pixel], image.blurredNits[pixel] > 0 ? frame.samples - sharp.length : 0);
        return { pixels: [...pixels], area: count / frame.samples, mean: count > 0 ? sum / count : meanOf(all) };
      };
      const { pixels, mean } = brightAt(0);
      return [{ ...common, pixels, stops: Math.log2(mean / around), pixelsAt: (higher) => brightAt(higher).area }];
    }
    const patches = patchesOf(seen, frame.widthPx, frame.heightPx).map((pixels) => ({
      pixels,
      stops: Math.log2(meanOf(pixels) / Math.max(blackNits, surroundingsOf(frame, image, pixels, shine))),
    }));
    const best = patches.reduce((most, patch) => (patch.stops > most.stops ? patch : most));
    const told = (higherStops: number): number =>
      patches.reduce(
        (most, { pixels, stops }) =>
          stops >= REFLECTION_NOTE_STOPS + higherStops ? Math.max(most, pixels.length) : most,
        0,
      );
    const past = patches.filter(({ stops }) => stops >= REFLECTION_NOTE_STOPS);
    const pixels = (past.length > 0 ? past : [best]).flatMap((patch) => patch.pixels);
    return [{ ...common, pixels, stops: best.stops, pixelsAt: told }];
  });
}

/** By pixel that shows an image, what each of its samples adds that shows it unblurred. */
function samplesByPixel(frame: LongFrame, image: NamedImage): { pixel: number; sharp: number[] }[] {
  const bySample = new Map<number, number>();
  image.sampleAt.forEach((at, i) => {
    bySample.set(at, (bySample.get(at) ?? 0) + image.sampleNits[i]);
  });
  const byPixel = new Map<number, number[]>();
  image.nits.forEach((nits, pixel) => {
    if (nits > 0) byPixel.set(pixel, []);
  });
  for (const [at, nits] of bySample) byPixel.get(Math.floor(at / frame.samples))?.push(nits);
  return [...byPixel].map(([pixel, sharp]) => ({ pixel, sharp }));
}

/** What else each pixel shows, cd/m2. */
const restOf = ({ totalNits }: LongFrame, { nits }: NamedImage): Float64Array =>
  totalNits.map((total, i) => Math.max(0, total - nits[i]));

const SMOOTH_STEPS = 4;

/** Likewise, as the mean over 9 x 9 pixels of the same record. */
function smoothRest({ totalNits, firstId, widthPx, heightPx }: LongFrame, { nits }: NamedImage): Float64Array {
  return totalNits.map((_, pixel) => {
    const [x, y] = [pixel % widthPx, Math.floor(pixel / widthPx)];
    let [sum, count] = [0, 0];
    for (let j = Math.max(0, y - SMOOTH_STEPS); j <= Math.min(heightPx - 1, y + SMOOTH_STEPS); j++)
      for (let i = Math.max(0, x - SMOOTH_STEPS); i <= Math.min(widthPx - 1, x + SMOOTH_STEPS); i++) {
        const near = j * widthPx + i;
        if (firstId[near] !== firstId[pixel]) continue;
        sum += totalNits[near] - nits[near];
        count++;
      }
    return Math.max(0, sum / count);
  });
}

function findingId({ sourceId, firstId, transmitted, direct }: NamedImage, isPlain: boolean): string {
  if (isPlain) return `reflections:${sourceId}:in:${firstId}`;
  const manner = transmitted ? 'through' : 'in';
  const tail = transmitted ? (direct ? ':once' : '') : direct ? '' : ':indirect';
  return `reflections:${sourceId}:${manner}:${firstId}${tail}`;
}

function seenPixels({ totalNits }: LongFrame, { nits }: NamedImage, blackNits: number): Uint8Array {
  const factor = 2 ** REFLECTION_SEEN_STOPS - 1;
  return Uint8Array.from(nits, (own, i) =>
    own > 0 && own >= factor * Math.max(blackNits, totalNits[i] - own) ? 1 : 0,
  );
}

/** Connected pixels, 8 neighbours. */
function patchesOf(mask: Uint8Array, width: number, height: number): number[][] {
  const left = mask.slice();
  const patches: number[][] = [];
  for (let start = 0; start < left.length; start++) {
    if (!left[start]) continue;
    const patch: number[] = [start];
    left[start] = 0;
    for (let at = 0; at < patch.length; at++)
      eachNeighbour(patch[at], width, height, (next) => {
        if (!left[next]) return;
        left[next] = 0;
        patch.push(next);
      });
    patches.push(patch);
  }
  return patches;
}

function eachNeighbour(pixel: number, width: number, height: number, visit: (next: number) => void): void {
  const [x, y] = [pixel % width, Math.floor(pixel / width)];
  for (let j = Math.max(0, y - 1); j <= Math.min(height - 1, y + 1); j++)
    for (let i = Math.max(0, x - 1); i <= Math.min(width - 1, x + 1); i++) if (i !== x || j !== y) visit(j * width + i);
}

/** Median of the ring: on the mirroring record where enough is left there, else all of it, else the rest of the frame. */
function surroundingsOf(frame: LongFrame, image: NamedImage, pixels: readonly number[], shine: Uint8Array): number {
  const inside = new Set(pixels);
  let edge: number[] = [...pixels];
  const ring = new Set<number>();
  for (let step = 0; step < RING_STEPS; step++) {
    const next: number[] = [];
    for (const pixel of edge)
      eachNeighbour(pixel, frame.widthPx, frame.heightPx, (neighbour) => {
        if (inside.has(neighbour) || ring.has(neighbour)) return;
        ring.add(neighbour);
        next.push(neighbour);
      });
    edge = next;
  }
  const isFree = (i: number): boolean => !shine[i] && !frame.isLamp[i];
  const free = [...ring].filter(isFree);
  const same = free.filter((i) => frame.firstId[i] === image.firstId);
  if (same.length >= MIN_RING) return medianOf(same, frame.totalNits);
  if (free.length >= MIN_RING) return medianOf(free, frame.totalNits);
  const rest = Array.from(shine.keys()).filter(isFree);
  if (rest.length > 0) return medianOf(rest, frame.totalNits);
  return pixels.reduce((sum, i) => sum + Math.max(0, frame.totalNits[i] - image.nits[i]), 0) / pixels.length;
}

function medianOf(pixels: readonly number[], values: Float64Array): number {
  const sorted = pixels.map((i) => values[i]).sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
