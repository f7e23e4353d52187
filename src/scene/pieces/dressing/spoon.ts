import type { RigidTransform } from '../../../core/rigid.ts';
import type { Vec3 } from '../../../core/vec3.ts';
import { type Built, builtOf, leftOut } from '../../built.ts';
import { BOARD_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { cannotMake, inMm } from '../../problems.ts';
import { createFoliage } from './foliage.ts';

const STATIONS = 72;
const ACROSS = 14;
/** The bowl takes this share of the length. */
const BOWL_SHARE = 0.33;

/** What the spoon is like at one station along it. */
interface Station {
  readonly x: number;
  readonly halfWidthM: number;
  /** Height of the rim or of the handle's top. */
  readonly topYM: number;
  readonly dishM: number;
  readonly thickM: number;
}

/** Closed thin body of metal: handle, neck and an oval bowl, the bowl's bottom and the handle's end on the table. */
export function buildSpoon(piece: DressingOf<'spoon'>, placement: RigidTransform): Built {
  const { lengthM, bowlWidthM } = piece;
  if (bowlWidthM > 0.6 * lengthM) {
    return leftOut([
      cannotMake(
        piece.id,
        'bowl-too-wide',
        'bowlWidthM',
        bowlWidthM,
        `bowlWidthM is wide for the length: keep it at ${inMm(0.6 * lengthM)} or less.`,
      ),
    ]);
  }
  const mesh = createFoliage();
  const stations = Array.from({ length: STATIONS + 1 }, (_, i) => stationAt(piece, i / STATIONS));
  const lowest = Math.min(...stations.map((s) => s.topYM - s.dishM - s.thickM));
  const rings = stations.map((s) => {
    const upper: number[] = [];
    const lower: number[] = [];
    const at = (u: number, y: number): Vec3 => [s.x, y - lowest + BOARD_LIFT_M, u * s.halfWidthM];
    for (let k = 0; k <= ACROSS; k++) {
      const u = -Math.cos((Math.PI * k) / ACROSS);
      const y = s.topYM - s.dishM * (1 - u * u);
      const rim = k === 0 || k === ACROSS;
      upper.push(mesh.corner(at(u, y)));
      lower.push(rim ? upper[k] : mesh.corner(at(u, y - s.thickM * Math.sqrt(1 - u ** 4))));
    }
    // Counter-clockwise seen from -x: over the top from -z to +z, back underneath.
    return [...upper, ...lower.slice(1, -1).reverse()];
  });
  for (let i = 0; i < STATIONS; i++) {
    const [a, b] = [rings[i], rings[i + 1]];
    for (let k = 0; k < a.length; k++) {
      const next = (k + 1) % a.length;
      mesh.triangle(a[k], a[next], b[next]);
      mesh.triangle(a[k], b[next], b[k]);
    }
  }
  for (const [ring, first] of [
    [rings[0], true],
    [rings[STATIONS], false],
  ] as const) {
    for (let k = 1; k + 1 < ring.length; k++) {
      if (first) mesh.triangle(ring[0], ring[k + 1], ring[k]);
      else mesh.triangle(ring[0], ring[k], ring[k + 1]);
    }
  }
  return builtOf([
    { recordId: piece.id, role: 'spoon', shape: mesh.build(), worldFromLocal: placement, finish: piece.finish },
  ]);
}

const smooth = (t: number): number => {
  const c = Math.min(1, Math.max(0, t));
  return c * c * (3 - 2 * c);
};

/** @param t 0 at the end of the handle, 1 at the tip of the bowl. Shares chosen by eye. */
function stationAt({ lengthM, bowlWidthM, gaugeM }: DressingOf<'spoon'>, t: number): Station {
  const bowlFrom = 1 - BOWL_SHARE;
  // Both ends run out in a half ellipse; 2 % of the width is left, closed by a flat end too small to see.
  const endRound = Math.sqrt(Math.max(0.0004, 1 - (1 - Math.min(1, t / 0.03)) ** 2));
  const handle = bowlWidthM * (0.24 - 0.13 * smooth(t / (bowlFrom * 0.9))) * endRound;
  const s = (t - bowlFrom) / BOWL_SHARE;
  // An egg, widest toward the handle: the half ellipse is drawn over a bent length.
  const bent = s > 0 ? s ** 0.86 : 0;
  const bowl = s > 0 ? (bowlWidthM / 2) * Math.sqrt(Math.max(0.0004, 1 - (2 * bent - 1) ** 2)) : 0;
  const neckFade = 1 - smooth((t - bowlFrom) / 0.08);
  const halfWidthM = Math.max(bowl, handle * neckFade, 0.0002);
  const dishDepthM = bowlWidthM * 0.24;
  const dish = dishDepthM * Math.min(1, (halfWidthM / (bowlWidthM / 2)) ** 2) * (s > 0 ? smooth(s / 0.25) : 0);
  const arch = Math.sin(Math.PI * Math.min(1, t / bowlFrom)) * 0.045 * lengthM;
  const rimYM = dishDepthM * smooth(t / bowlFrom);
  return {
    x: (t - 0.5) * lengthM,
    halfWidthM,
    topYM: rimYM + arch * (1 - smooth(s)),
    dishM: dish,
    thickM: gaugeM * (1 + 0.5 * neckFade * smooth(t / 0.2)) * endRound,
  };
}
