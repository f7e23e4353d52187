import { describe, expect, it } from 'vitest';
import { paletteDifference, paletteOf } from '../../src/core/color/palette.ts';

/** Blocks of flat colours, each with its number of pixels. */
function picture(blocks: readonly (readonly [readonly [number, number, number], number])[]): Uint8ClampedArray {
  return Uint8ClampedArray.from(
    blocks.flatMap(([rgb, count]) => Array.from({ length: count }, () => [...rgb, 255]).flat()),
  );
}
const RED = [200, 40, 30] as const;
const SAND = [214, 190, 150] as const;
const INK = [20, 24, 40] as const;

describe('the palette of a picture', () => {
  it('is its very colours where it has few, with their parts: 50, 30 and 20 %, darkest first', () => {
    const palette = paletteOf(
      picture([
        [RED, 500],
        [SAND, 300],
        [INK, 200],
      ]),
    );
    expect(palette.map(({ hex }) => hex)).toEqual(['#141828', '#c8281e', '#d6be96']);
    expect(palette.map(({ share }) => share)).toEqual([0.2, 0.5, 0.3]);
  });

  it('has at most 6 colours, is the same each time, and its parts add up to 1', () => {
    const noise = Uint8ClampedArray.from({ length: 40_000 }, (_, i) => (i % 4 === 3 ? 255 : (i * 2654435761) >>> 24));
    const palette = paletteOf(noise);
    expect(palette.length).toBeLessThanOrEqual(6);
    expect(palette.length).toBeGreaterThan(3);
    expect(paletteOf(noise)).toEqual(palette);
    expect(palette.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  // White of sRGB is L* 100, a* 0, b* 0, and 119 is L* 50 to a tenth (ISO/CIE 11664-4; code from memory).
  it('is read in L*a*b*: white at 100, code 119 at 50', () => {
    const [grey, white] = paletteOf(
      picture([
        [[255, 255, 255], 10],
        [[119, 119, 119], 10],
      ]),
    );
    expect(white.lab[0]).toBeCloseTo(100, 2);
    expect(grey.lab[0]).toBeCloseTo(50, 0);
    expect(Math.hypot(grey.lab[1], grey.lab[2])).toBeLessThan(0.01);
  });

  it('joins colours that nobody tells apart, and has none for an empty or clear picture', () => {
    const alike = picture([
      [[120, 120, 120], 50],
      [[122, 121, 120], 50],
    ]);
    expect(paletteOf(alike)).toHaveLength(1);
    expect(paletteOf(new Uint8ClampedArray(0))).toEqual([]);
    expect(paletteOf(new Uint8ClampedArray(400))).toEqual([]);
  });
});

describe('how far two palettes are apart', () => {
  const a = paletteOf(
    picture([
      [RED, 60],
      [INK, 40],
    ]),
  );
  const b = paletteOf(
    picture([
      [RED, 10],
      [SAND, 90],
    ]),
  );

  it('is 0 from itself, the same both ways, and larger the more is different', () => {
    expect(paletteDifference(a, a)).toBe(0);
    expect(paletteDifference(a, b)).toBeCloseTo(paletteDifference(b, a), 12);
    expect(paletteDifference(a, b)).toBeGreaterThan(10);
  });

  it('has no figure where one of them has no colours', () => {
    expect(paletteDifference(a, [])).toBeNaN();
  });
});
