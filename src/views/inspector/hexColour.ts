import type { Vec3 } from '../../core/vec3.ts';

/** sRGB transfer function, IEC 61966-2-1:1999, in both directions; values 0..1. */
const encode = (linear: number): number => (linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055);
const decode = (encoded: number): number => (encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4);

/** Linear Rec. 709 reflectance as '#rrggbb'. */
export const hexFromLinear = (rgb: Vec3): string =>
  `#${rgb
    .map((value) =>
      Math.round(encode(Math.min(1, Math.max(0, value))) * 255)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;

/** '#rrggbb' as linear Rec. 709 reflectance. */
export function linearFromHex(hex: string): Vec3 {
  const channel = (at: number): number => Number(decode(Number.parseInt(hex.slice(at, at + 2), 16) / 255).toFixed(4));
  return [channel(1), channel(3), channel(5)];
}
