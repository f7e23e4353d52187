import type { Vec3 } from '../../core/vec3.ts';
import type { DrawingSide, SheetPoint } from '../../scene/outline.ts';

/**
 * World point to the sheet, metres, u right and v down. The plan looks straight down with the usual camera side at the
 * bottom; the front elevation looks from there; the side elevation looks from camera right, the camera at its left.
 */
export function projectToSheet(side: DrawingSide, [x, y, z]: Vec3): SheetPoint {
  switch (side) {
    case 'plan':
      return [x, z];
    case 'front':
      return [x, -y];
    case 'side':
      return [-z, -y];
  }
}

/** From the axes of `outlineSet`, whose elevations run up and whose side view runs along +z. */
export function sheetFromOutline(side: DrawingSide, [a, b]: SheetPoint): SheetPoint {
  if (side === 'plan') return [a, b];
  return side === 'front' ? [a, -b] : [-a, -b];
}
