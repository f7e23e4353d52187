import { z } from 'zod';

/** Linear reflectance, Rec. 709 primaries, D65, each channel 0..1. */
export const reflectanceRgbSchema = z.tuple([
  z.number().min(0).max(1),
  z.number().min(0).max(1),
  z.number().min(0).max(1),
]);
export type ReflectanceRgb = z.infer<typeof reflectanceRgbSchema>;

/** Luminous reflectance of a colour, 0..1: the Y row of Rec. 709 (ITU-R BT.709-6, item 3.2). */
export const luminousOf = ([r, g, b]: readonly [number, number, number]): number =>
  0.2126 * r + 0.7152 * g + 0.0722 * b;

/** Colour at a share 0..1 of the way from `a` to `b`. */
export const mixReflectance = (
  a: readonly [number, number, number],
  b: readonly [number, number, number],
  share: number,
): ReflectanceRgb => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share];
