import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildBvh, MAX_BVH_DEPTH } from '../../src/transport/compile/buildBvh.ts';
import { NODE } from '../../src/transport/layout/schema.ts';

const coordinate = fc.double({ min: -3, max: 3, noNaN: true });
const size = fc.oneof(fc.constant(0), fc.double({ min: 0, max: 0.5, noNaN: true }));
const item = fc.tuple(coordinate, coordinate, coordinate, size, size, size);
const boundsOf = (items: readonly (readonly number[])[]): Float64Array =>
  Float64Array.from(items.flatMap(([x, y, z, a, b, c]) => [x, y, z, x + a, y + b, z + c]));

/** Walks the tree from the root: depth, and the items in each leaf; every node holds what lies under it. */
function walk(bounds: Float64Array) {
  const { nodeWords, order } = buildBvh(bounds);
  const seen: number[] = [];
  let [deepest, nodes] = [0, 0];
  const visit = (node: number, depth: number): number[] => {
    deepest = Math.max(deepest, depth);
    nodes++;
    const at = node * NODE.strideWords;
    const [first, count] = [nodeWords[at + NODE.offset.first], nodeWords[at + NODE.offset.count]];
    const held =
      count > 0
        ? Array.from(order.subarray(first, first + count))
        : [...visit(node + 1, depth + 1), ...visit(first, depth + 1)];
    if (count > 0) seen.push(...held);
    for (const i of held)
      for (let k = 0; k < 3; k++) {
        expect(nodeWords[at + k]).toBeLessThanOrEqual(bounds[i * 6 + k]);
        expect(nodeWords[at + 3 + k]).toBeGreaterThanOrEqual(bounds[i * 6 + 3 + k]);
      }
    return held;
  };
  if (bounds.length > 0) visit(0, 0);
  return { seen, deepest, nodes, words: nodeWords.length };
}

describe('the tree over the primitives', () => {
  it('holds every item in one leaf, each node over all that lies under it, no deeper than the stacks', () => {
    fc.assert(
      fc.property(fc.array(item, { maxLength: 60 }), (items) => {
        const { seen, deepest, nodes, words } = walk(boundsOf(items));
        expect([...seen].sort((a, b) => a - b)).toEqual(items.map((_, i) => i));
        expect(deepest).toBeLessThanOrEqual(MAX_BVH_DEPTH);
        expect(words).toBe(nodes * NODE.strideWords);
      }),
      { seed: 91, numRuns: 60 },
    );
  });

  it('parts two heaps of 40 a metre apart at the root, and takes items that all lie in one place', () => {
    const heap = (x: number): number[][] =>
      Array.from({ length: 40 }, (_, i) => [x + (i % 5) * 0.01, 0, i * 0.001, 0.005, 0.005, 0.005]);
    const bounds = boundsOf([...heap(0), ...heap(1)]);
    const { nodeWords, order } = buildBvh(bounds);
    const right = nodeWords[NODE.offset.first] * NODE.strideWords;
    expect(nodeWords[NODE.strideWords + 3]).toBeLessThan(0.1);
    expect(nodeWords[right]).toBeGreaterThan(0.9);
    expect(new Set(order).size).toBe(80);
    const same = walk(boundsOf(Array.from({ length: 30 }, () => [1, 1, 1, 0.1, 0.1, 0.1])));
    expect(same.seen).toHaveLength(30);
  });

  it('is empty over nothing, and the same over the same items', () => {
    expect(buildBvh(new Float64Array()).order).toHaveLength(0);
    const bounds = boundsOf(
      Array.from({ length: 200 }, (_, i) => [Math.sin(i), Math.cos(3 * i), Math.sin(7 * i), 0.1, 0.05, 0]),
    );
    expect(buildBvh(bounds)).toEqual(buildBvh(bounds));
  });
});
