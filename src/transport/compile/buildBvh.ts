import { NODE } from '../layout/schema.ts';

/** Deepest tree that traversal stacks are sized for; the builder never exceeds it. */
export const MAX_BVH_DEPTH = 48;
const BIN_COUNT = 16;
const MAX_LEAF = 3;
const TRAVERSAL_COST = 0.6;
const LEAST_AREA_M2 = 1e-12;

/**
 * Bounding volume hierarchy by the binned surface area heuristic (I. Wald, "On fast construction of SAH-based bounding
 * volume hierarchies", 2007). Everything is summed in arrays that are made once: the set is compiled anew for every move of a
 * hand.
 *
 * @param bounds n x 6: min xyz, max xyz of each item, metres
 * @returns node words (layout NODE, depth first, root at 0) and the order in which items lie in the leaves
 */
export function buildBvh(bounds: Float64Array): { nodeWords: Float32Array; order: Uint32Array } {
  const count = bounds.length / 6;
  const order = new Uint32Array(count);
  const centres = new Float64Array(count * 3);
  for (let i = 0; i < count; i++) {
    order[i] = i;
    for (let k = 0; k < 3; k++) centres[i * 3 + k] = (bounds[i * 6 + k] + bounds[i * 6 + 3 + k]) / 2;
  }
  // A tree over n items with one or more in each leaf has 2 n - 1 nodes at most.
  const words = new Float32Array(Math.max(1, 2 * count - 1) * NODE.strideWords);
  let used = 0;
  const box = emptyBox();
  const binBoxes = new Float64Array(BIN_COUNT * 6);
  const emptyBins = Float64Array.from(binBoxes, (_, i) =>
    i % 6 < 3 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY,
  );
  const binCounts = new Int32Array(BIN_COUNT);
  const rightArea = new Float64Array(BIN_COUNT);
  const rightCount = new Int32Array(BIN_COUNT);
  const swept = emptyBox();
  const binOf = new Uint8Array(count);

  /** Half the area of what a sweep has gathered, with the box of one more bin. */
  const sweepArea = (bin: number): number => {
    for (let k = 0; k < 3; k++) {
      if (binBoxes[bin * 6 + k] < swept[k]) swept[k] = binBoxes[bin * 6 + k];
      if (binBoxes[bin * 6 + 3 + k] > swept[k + 3]) swept[k + 3] = binBoxes[bin * 6 + 3 + k];
    }
    return halfArea(swept);
  };

  const fillBins = (start: number, end: number, axis: number, low: number, scale: number): void => {
    binCounts.fill(0);
    binBoxes.set(emptyBins);
    for (let i = start; i < end; i++) {
      const item = order[i];
      const bin = Math.min(BIN_COUNT - 1, Math.floor((centres[item * 3 + axis] - low) * scale));
      binCounts[bin]++;
      growByItem(binBoxes, bin * 6, bounds, item);
    }
  };

  /** The same for two items, half of all nodes, without bins: they part along the first axis on which they differ. */
  const splitPair = (start: number, area: number): number => {
    const [a, b] = [order[start], order[start + 1]];
    let axis = 0;
    while (axis < 3 && centres[a * 3 + axis] === centres[b * 3 + axis]) axis++;
    if (axis === 3) return 0;
    emptyTheBox(swept);
    growByItem(swept, 0, bounds, a);
    const areaA = halfArea(swept);
    emptyTheBox(swept);
    growByItem(swept, 0, bounds, b);
    if (TRAVERSAL_COST + (areaA + halfArea(swept)) / area >= 2) return 0;
    if (centres[a * 3 + axis] > centres[b * 3 + axis]) {
      order[start] = b;
      order[start + 1] = a;
    }
    return start + 1;
  };

  /** Where the items of a node part, after they were put in order for it; 0 where they should stay together. */
  const splitItems = (start: number, end: number): number => {
    const n = end - start;
    const area = halfArea(box);
    if (n === 2) return splitPair(start, area);
    let bestCost = Number.POSITIVE_INFINITY;
    let [bestAxis, bestBin, bestLow, bestScale] = [-1, 0, 0, 0];
    for (let axis = 0; axis < 3; axis++) {
      let low = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      for (let i = start; i < end; i++) {
        const c = centres[order[i] * 3 + axis];
        if (c < low) low = c;
        if (c > high) high = c;
      }
      if (!(high > low)) continue;
      const scale = BIN_COUNT / (high - low);
      fillBins(start, end, axis, low, scale);
      emptyTheBox(swept);
      let sum = 0;
      for (let b = BIN_COUNT - 1; b > 0; b--) {
        rightArea[b] = sweepArea(b);
        sum += binCounts[b];
        rightCount[b] = sum;
      }
      emptyTheBox(swept);
      sum = 0;
      for (let b = 0; b < BIN_COUNT - 1; b++) {
        const leftArea = sweepArea(b);
        sum += binCounts[b];
        if (sum === 0 || rightCount[b + 1] === 0) continue;
        const cost = leftArea * sum + rightArea[b + 1] * rightCount[b + 1];
        if (cost < bestCost) {
          bestCost = cost;
          [bestAxis, bestBin, bestLow, bestScale] = [axis, b, low, scale];
        }
      }
    }
    if (bestAxis < 0) return n > MAX_LEAF ? start + (n >> 1) : 0;
    if (n <= MAX_LEAF && TRAVERSAL_COST + bestCost / area >= n) return 0;
    for (let i = start; i < end; i++) {
      const item = order[i];
      binOf[item] = Math.min(BIN_COUNT - 1, Math.floor((centres[item * 3 + bestAxis] - bestLow) * bestScale));
    }
    let i = start;
    let j = end - 1;
    while (i <= j) {
      const item = order[i];
      if (binOf[item] <= bestBin) i++;
      else {
        order[i] = order[j];
        order[j] = item;
        j--;
      }
    }
    return i;
  };

  const emit = (start: number, end: number, depth: number): void => {
    emptyTheBox(box);
    for (let i = start; i < end; i++) growByItem(box, 0, bounds, order[i]);
    const at = used;
    // Round outward: the words are 32-bit and a box must never lose what it holds.
    for (let k = 0; k < 3; k++) {
      words[at + k] = roundDown(box[k]);
      words[at + 3 + k] = roundUp(box[k + 3]);
    }
    words[at + NODE.offset.first] = start;
    words[at + NODE.offset.count] = end - start;
    used += NODE.strideWords;
    const split = end - start > 1 && depth < MAX_BVH_DEPTH ? splitItems(start, end) : 0;
    if (split === 0) return;
    words[at + NODE.offset.count] = 0;
    emit(start, split, depth + 1);
    words[at + NODE.offset.first] = used / NODE.strideWords;
    emit(split, end, depth + 1);
  };

  if (count > 0) emit(0, count, 0);
  return { nodeWords: words.slice(0, used), order };
}

function emptyTheBox(box: Float64Array): void {
  for (let k = 0; k < 3; k++) {
    box[k] = Number.POSITIVE_INFINITY;
    box[k + 3] = Number.NEGATIVE_INFINITY;
  }
}

function emptyBox(): Float64Array {
  const box = new Float64Array(6);
  emptyTheBox(box);
  return box;
}

function growByItem(boxes: Float64Array, at: number, bounds: Float64Array, item: number): void {
  for (let k = 0; k < 3; k++) {
    const low = bounds[item * 6 + k];
    const high = bounds[item * 6 + 3 + k];
    if (low < boxes[at + k]) boxes[at + k] = low;
    if (high > boxes[at + 3 + k]) boxes[at + 3 + k] = high;
  }
}

function halfArea(b: Float64Array): number {
  const x = Math.max(0, b[3] - b[0]);
  const y = Math.max(0, b[4] - b[1]);
  const z = Math.max(0, b[5] - b[2]);
  return x * y + y * z + z * x + LEAST_AREA_M2;
}

const PAD_M = 2e-7;
const roundDown = (v: number): number => Math.fround(v - PAD_M - Math.abs(v) * 2.4e-7);
const roundUp = (v: number): number => Math.fround(v + PAD_M + Math.abs(v) * 2.4e-7);
