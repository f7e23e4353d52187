import type { RigidTransform } from '../../../core/rigid.ts';
import { pcgHash } from '../../../core/rng.ts';
import type { Vec3 } from '../../../core/vec3.ts';
import { gradientNoise } from '../../../materials/patterns/noise.ts';
import { type Built, builtOf } from '../../built.ts';
import { PAPER_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { createFoliage } from './foliage.ts';

const STEPS_ACROSS = 36;
const STEPS_ALONG = 22;
const BEND_STEPS = 6;

/**
 * A cloth folded to and fro: one thin sheet that runs across the depth, turns back over itself in a half circle, and so on.
 * Each layer follows the one under it, softened by noise that grows toward the top, so layers never cross.
 */
export function buildNapkin(piece: DressingOf<'napkin'>, placement: RigidTransform): Built {
  const { widthM, depthM, layers, layerM } = piece;
  const seed = pcgHash(piece.seed) >>> 8;
  const bendM = layerM / 2;
  const flatM = Math.max(0.2 * depthM, depthM - 2 * bendM);
  const rows: { z: number; level: number }[] = [];
  for (let k = 0; k < layers; k++) {
    const forward = k % 2 === 0 ? 1 : -1;
    for (let j = 0; j <= STEPS_ALONG; j++) rows.push({ z: forward * flatM * (j / STEPS_ALONG - 0.5), level: k });
    if (k + 1 === layers) break;
    for (let j = 1; j < BEND_STEPS; j++) {
      const phi = (Math.PI * j) / BEND_STEPS;
      rows.push({ z: forward * (flatM / 2 + bendM * Math.sin(phi)), level: k + (1 - Math.cos(phi)) / 2 });
    }
  }
  const mesh = createFoliage();
  const scale = 3.5 / Math.max(widthM, depthM);
  const softM = piece.softness * 3 * layerM;
  const at = (i: number, { z, level }: { z: number; level: number }): Vec3 => {
    const u = i / STEPS_ACROSS - 0.5;
    // Layers lie a little off one another, as cloth that was folded by hand.
    const slip = piece.softness * 0.02 * widthM * (gradientNoise(level * 0.7, z * scale, 4.2, seed + 1) - 0.5);
    const x = u * widthM + slip;
    const share = layers > 1 ? level / (layers - 1) : 1;
    const wave = gradientNoise(x * scale, z * scale, 0.5, seed);
    const y = PAPER_LIFT_M + level * layerM + softM * wave * (0.25 + 0.75 * share);
    return [x, y, z];
  };
  const numbers = rows.map((row) => Array.from({ length: STEPS_ACROSS + 1 }, (_, i) => mesh.corner(at(i, row))));
  for (let r = 0; r + 1 < rows.length; r++) {
    for (let i = 0; i < STEPS_ACROSS; i++) {
      const [a, b, c, d] = [numbers[r][i], numbers[r + 1][i], numbers[r + 1][i + 1], numbers[r][i + 1]];
      // Alternate diagonals, so that the weave of triangles does not lean one way.
      if ((r + i) % 2 === 0) {
        mesh.triangle(a, b, c);
        mesh.triangle(a, c, d);
      } else {
        mesh.triangle(a, b, d);
        mesh.triangle(b, c, d);
      }
    }
  }
  return builtOf([
    { recordId: piece.id, role: 'cloth', shape: mesh.build(), worldFromLocal: placement, finish: piece.finish },
  ]);
}

/** Height that the cloth reaches at most. */
export const napkinHeightM = ({ layers, layerM, softness }: DressingOf<'napkin'>): number =>
  PAPER_LIFT_M + (layers - 1) * layerM + softness * 3 * layerM;
