import { decodeSrgb } from '../../core/color/index.ts';
import type { Vec3 } from '../../core/vec3.ts';

/** '#rrggbb' as linear Rec. 709 reflectance. */
export function linearFromHex(hex: string): Vec3 {
  const channel = (at: number): number =>
    Number(decodeSrgb(Number.parseInt(hex.slice(at, at + 2), 16) / 255).toFixed(4));
  return [channel(1), channel(3), channel(5)];
}
