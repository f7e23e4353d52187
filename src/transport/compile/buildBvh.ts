import { NODE } from '../layout/schema.ts';

/** Deepest tree that traversal stacks are sized for; the builder never exceeds it. */
export const MAX_BVH_DEPTH = 48;
const BIN_COUNT = 16;
const MAX_LEAF = 3;
const TRAVERSAL_COST = 0.6;

/**
 * Bounding volume hierarchy by the binned surface area heuristic (I. Wald, "On fast construction of SAH-based bounding
 * volume hierarchies", 2007).
 *
 * @param bounds n x 6: min xyz, max xyz of each item, metres
 * @returns node words (layout NODE, depth first, root at 0) and the order in which items lie in the leaves
 */
export function buildBvh(bounds: Float64Array): { nodeWords: Float32Array; order: Uint32Array } {
  const count = bounds.length / 6;
  const order = Uint32Array.from({ length: count }, (_, i) => i);
  const nodes: number[] = [];
  const centre = (item: number, axis: number) =>
    ((bounds[item * 6 + axis] ?? 0) + (bounds[item * 6 + 3 + axis] ?? 0)) / 2;

  const boxOf = (start: number, end: number): Float64Array => {
    const box = emptyBox();
    for (let i = start; i < end; i++) growByItem(box, bounds, order[i] ?? 0);
    return box;
  };

  const emit = (start: number, end: number, depth: number): void => {
    const box = boxOf(start, end);
    const at = nodes.length;
    // Round outward: the words are 32-bit and a box must never lose what it holds.
    for (let k = 0; k < 3; k++) nodes.push(roundDown(box[k] ?? 0));
    for (let k = 3; k < 6; k++) nodes.push(roundUp(box[k] ?? 0));
    nodes.push(start, end - start);
    const split = end - start > 1 && depth < MAX_BVH_DEPTH ? chooseSplit(start, end, box) : null;
    if (!split) return;
    nodes[at + NODE.offset.count] = 0;
    emit(start, split, depth + 1);
    nodes[at + NODE.offset.first] = nodes.length / NODE.strideWords;
    emit(split, end, depth + 1);
  };

  const chooseSplit = (start: number, end: number, box: Float64Array): number | null => {
    const n = end - start;
    let best: { axis: number; bin: number; cost: number; low: number; scale: number } | null = null;
    for (let axis = 0; axis < 3; axis++) {
      let low = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      for (let i = start; i < end; i++) {
        const c = centre(order[i] ?? 0, axis);
        if (c < low) low = c;
        if (c > high) high = c;
      }
      if (!(high > low)) continue;
      const scale = BIN_COUNT / (high - low);
      const boxes = Array.from({ length: BIN_COUNT }, emptyBox);
      const counts = new Array<number>(BIN_COUNT).fill(0);
      for (let i = start; i < end; i++) {
        const item = order[i] ?? 0;
        const bin = Math.min(BIN_COUNT - 1, Math.floor((centre(item, axis) - low) * scale));
        counts[bin] = (counts[bin] ?? 0) + 1;
        growByItem(boxes[bin] as Float64Array, bounds, item);
      }
      const rightArea = new Array<number>(BIN_COUNT).fill(0);
      const rightCount = new Array<number>(BIN_COUNT).fill(0);
      let box2 = emptyBox();
      let sum = 0;
      for (let b = BIN_COUNT - 1; b > 0; b--) {
        growByBox(box2, boxes[b] as Float64Array);
        sum += counts[b] ?? 0;
        rightArea[b] = halfArea(box2);
        rightCount[b] = sum;
      }
      box2 = emptyBox();
      sum = 0;
      for (let b = 0; b < BIN_COUNT - 1; b++) {
        growByBox(box2, boxes[b] as Float64Array);
        sum += counts[b] ?? 0;
        if (sum === 0 || rightCount[b + 1] === 0) continue;
        const cost = halfArea(box2) * sum + (rightArea[b + 1] ?? 0) * (rightCount[b + 1] ?? 0);
        if (!best || cost < best.cost) best = { axis, bin: b, cost, low, scale };
      }
    }
    const area = halfArea(box);
    if (!best) return n > MAX_LEAF ? start + (n >> 1) : null;
    if (n <= MAX_LEAF && TRAVERSAL_COST + best.cost / area >= n) return null;
    const { axis, bin, low, scale } = best;
    let i = start;
    let j = end - 1;
    while (i <= j) {
      const item = order[i] ?? 0;
      if (Math.min(BIN_COUNT - 1, Math.floor((centre(item, axis) - low) * scale)) <= bin) i++;
      else {
        order[i] = order[j] ?? 0;
        order[j] = item;
        j--;
      }
    }
    return i;
  };

  if (count > 0) emit(0, count, 0);
  return { nodeWords: Float32Array.from(nodes), order };
}

const emptyBox = (): Float64Array =>
  Float64Array.of(
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  );

function growByItem(box: Float64Array, bounds: Float64Array, item: number): void {
  for (let k = 0; k < 3; k++) {
    box[k] = Math.min(box[k] ?? 0, bounds[item * 6 + k] ?? 0);
    box[k + 3] = Math.max(box[k + 3] ?? 0, bounds[item * 6 + 3 + k] ?? 0);
  }
}

function growByBox(box: Float64Array, other: Float64Array): void {
  for (let k = 0; k < 3; k++) {
    box[k] = Math.min(box[k] ?? 0, other[k] ?? 0);
    box[k + 3] = Math.max(box[k + 3] ?? 0, other[k + 3] ?? 0);
  }
}

const halfArea = (b: Float64Array): number => {
  const x = Math.max(0, (b[3] ?? 0) - (b[0] ?? 0));
  const y = Math.max(0, (b[4] ?? 0) - (b[1] ?? 0));
  const z = Math.max(0, (b[5] ?? 0) - (b[2] ?? 0));
  return x * y + y * z + z * x + 1e-12;
};

const PAD_M = 2e-7;
const roundDown = (v: number): number => Math.fround(v - PAD_M - Math.abs(v) * 2.4e-7);
const roundUp = (v: number): number => Math.fround(v + PAD_M + Math.abs(v) * 2.4e-7);
