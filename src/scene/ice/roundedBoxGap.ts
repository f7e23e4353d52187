import type { RigidTransform } from '../../core/rigid.ts';
import type { Vec3 } from '../../core/vec3.ts';

/** A box with a sharp core, grown all round by a ball: ice, a straw (no core but its axis), an olive. */
export interface RoundedBox {
  readonly coreHalfM: Vec3;
  readonly bevelM: number;
}

export interface PlacedBox {
  readonly box: RoundedBox;
  readonly placement: RigidTransform;
}

/**
 * The heights (added to `moving`'s own) at which the moving box would come nearer than `gapM` to a standing one, or
 * undefined when it passes clear at every height. By separating axes (three face normals each and their nine
 * cross products; Gottschalk, Lin and Manocha, "OBBTree", SIGGRAPH 1996): every axis with a component along y gives an
 * interval, and the boxes are near only where all of them overlap. Errs on the side of distance.
 */
export function blockedHeights(
  { box: movingBox, placement: moving }: PlacedBox,
  { box: standingBox, placement: standing }: PlacedBox,
  gapM: number,
): { readonly loM: number; readonly hiM: number } | undefined {
  const a = moving.rotation;
  const b = standing.rotation;
  const coreA = movingBox.coreHalfM;
  const coreB = standingBox.coreHalfM;
  const dx = moving.translationM[0] - standing.translationM[0];
  const dy = moving.translationM[1] - standing.translationM[1];
  const dz = moving.translationM[2] - standing.translationM[2];
  const margin = movingBox.bevelM + standingBox.bevelM + gapM;
  let loM = Number.NEGATIVE_INFINITY;
  let hiM = Number.POSITIVE_INFINITY;

  /** Narrows the interval by one axis; false once the boxes are apart for good. */
  const narrow = (x: number, y: number, z: number): boolean => {
    const l = Math.hypot(x, y, z);
    if (l < 1e-6) return true; // two edges that run the same way: no axis of their own
    let reach = 0;
    for (let k = 0; k < 3; k++) {
      reach +=
        Math.abs(a[k] * x + a[3 + k] * y + a[6 + k] * z) * coreA[k] +
        Math.abs(b[k] * x + b[3 + k] * y + b[6 + k] * z) * coreB[k];
    }
    reach = reach / l + margin;
    const along = (dx * x + dy * y + dz * z) / l;
    const perY = y / l;
    if (Math.abs(perY) < 1e-9) return Math.abs(along) < reach;
    const p = (-reach - along) / perY;
    const q = (reach - along) / perY;
    loM = Math.max(loM, Math.min(p, q));
    hiM = Math.min(hiM, Math.max(p, q));
    return loM < hiM;
  };

  for (let i = 0; i < 3; i++) {
    if (!narrow(a[i], a[3 + i], a[6 + i])) return undefined;
    if (!narrow(b[i], b[3 + i], b[6 + i])) return undefined;
  }
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      const ax = a[i];
      const ay = a[3 + i];
      const az = a[6 + i];
      const bx = b[j];
      const by = b[3 + j];
      const bz = b[6 + j];
      if (!narrow(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx)) return undefined;
    }
  }
  return { loM, hiM };
}
