import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyMergePatch, createMergePatch } from '../../src/document/mergePatch.ts';

/** Test cases of RFC 7396, appendix A: original, patch, result (from memory of the RFC; each follows from section 2). */
const RFC_7396_CASES: readonly (readonly [unknown, unknown, unknown])[] = [
  [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
  [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
  [{ a: 'b' }, { a: null }, {}],
  [{ a: 'b', b: 'c' }, { a: null }, { b: 'c' }],
  [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
  [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
  [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
  [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
  [
    ['a', 'b'],
    ['c', 'd'],
    ['c', 'd'],
  ],
  [{ a: 'b' }, ['c'], ['c']],
  [{ a: 'foo' }, null, null],
  [{ a: 'foo' }, 'bar', 'bar'],
  [{ e: null }, { a: 1 }, { e: null, a: 1 }],
  [[1, 2], { a: 'b', c: null }, { a: 'b' }],
  [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
];

describe('merge patch', () => {
  it.each(RFC_7396_CASES)('RFC 7396 appendix A: %j with %j gives %j', (target, patch, result) => {
    expect(applyMergePatch(target, patch)).toEqual(result);
  });

  it('made from two records turns the first into the second', () => {
    const leaf = fc.oneof(
      fc.double({ noNaN: true }),
      fc.string(),
      fc.boolean(),
      fc.array(fc.integer(), { maxLength: 3 }),
    );
    const flat = fc.dictionary(fc.constantFrom('a', 'b', 'c'), leaf);
    const nested = fc.dictionary(fc.constantFrom('a', 'b', 'c', 'd'), fc.oneof(leaf, flat));
    fc.assert(
      fc.property(nested, nested, (from, to) => {
        expect(applyMergePatch(from, createMergePatch(from, to))).toEqual(to);
      }),
      { seed: 7396, numRuns: 500 },
    );
  });

  it('is empty between equal records', () => {
    expect(createMergePatch({ a: [1, 2], b: { c: 0 } }, { a: [1, 2], b: { c: -0 } })).toEqual({});
  });
});
