import { compose, fromAxes, IDENTITY, type RigidTransform } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import type { MeshShape } from '../../core/shape.ts';
import { radFromDeg } from '../../core/units.ts';
import { cross, normalize, type Vec3 } from '../../core/vec3.ts';
import { gridMesh } from '../parts/mesh.ts';
import { rodParts } from '../parts/rod.ts';
import type { Garnish } from '../records.ts';
import { dressed, type GarnishPart } from './garnishPart.ts';
import { MINT_LEAF, MINT_STEM } from './looks.ts';

export type Mint = Extract<Garnish, { kind: 'mint' }>;

export const MINT_STEM_RADIUS_M = 0.0012;
const NODE_M = 0.008;

/** Height of the leafy part over its lowest pair. */
export const sprigHeightM = ({ pairs, leafLengthM }: Mint): number => NODE_M * (pairs - 1) + 0.7 * leafLengthM;

/**
 * A sprig along local y: the stem from `-stemM` up, leaves in pairs from height 0, each pair at right angles to the one
 * below, the upper ones smaller and steeper, all a little uneven by seed.
 */
export function mintParts(mint: Mint, stemM: number): GarnishPart[] {
  const random = createRandom(mint.seed);
  const topM = NODE_M * (mint.pairs - 1);
  const parts: GarnishPart[] = dressed(
    MINT_STEM,
    rodParts('stem', [0, -stemM, 0], [0, topM + 0.002, 0], MINT_STEM_RADIUS_M, 0.0006),
  );
  for (let pair = 0; pair < mint.pairs; pair++) {
    const up = mint.pairs > 1 ? pair / (mint.pairs - 1) : 1;
    for (const half of [0, 1]) {
      const heading = (pair % 2) * (Math.PI / 2) + half * Math.PI + radFromDeg(24) * (random() - 0.5);
      const lift = radFromDeg(12 + 48 * up + 18 * (random() - 0.5));
      const lengthM = mint.leafLengthM * (1 - 0.5 * up * up) * (0.85 + 0.3 * random());
      const leaf = leafMesh(lengthM, random);
      parts.push({
        role: 'leaf',
        shape: leaf,
        worldFromLocal: compose(leafFrame(heading, lift, NODE_M * pair), IDENTITY),
        finish: MINT_LEAF,
      });
    }
  }
  return parts;
}

/** Frame of a leaf: x along it, away from the stem and up by `lift`; y the upper face. */
function leafFrame(heading: number, lift: number, heightM: number): RigidTransform {
  const out: Vec3 = [Math.cos(heading), 0, Math.sin(heading)];
  const x: Vec3 = [out[0] * Math.cos(lift), Math.sin(lift), out[2] * Math.cos(lift)];
  const y: Vec3 = [-out[0] * Math.sin(lift), Math.cos(lift), -out[2] * Math.sin(lift)];
  return fromAxes(x, y, normalize(cross(x, y)), [0, heightM, 0]);
}

/**
 * One leaf in its own frame, from the origin along x: a pointed oval with a saw-toothed edge, folded along its midrib,
 * bent down toward the tip, with furrows where the veins run.
 */
function leafMesh(lengthM: number, random: () => number): MeshShape {
  const widthM = lengthM * (0.27 + 0.05 * random());
  const fold = 0.28 + 0.25 * random();
  const droop = 0.25 + 0.35 * random();
  const twist = 0.5 * (random() - 0.5);
  const phase = random();
  return gridMesh(22, 8, (u, v) => {
    const s = u ** 0.9;
    const across = 2 * v - 1;
    const saw = 1 + 0.07 * Math.sin(2 * Math.PI * (11 * s + phase)) * Math.abs(across) ** 3;
    const half = widthM * Math.sin(Math.PI * s ** 0.72) ** 0.85 * saw;
    const z = across * half;
    const bend = droop * s;
    // Along an arc, so that the leaf keeps its length.
    const x = droop > 1e-3 ? (lengthM * Math.sin(bend)) / droop : lengthM * s;
    const down = droop > 1e-3 ? (lengthM * (1 - Math.cos(bend))) / droop : 0;
    const veins = 0.02 * lengthM * Math.cos(2 * Math.PI * (7 * s - 1.4 * Math.abs(across))) * Math.abs(across) ** 0.7;
    const cup = fold * Math.abs(z) + twist * z * s + veins * Math.sin(Math.PI * s);
    return [x, cup - down, -z];
  });
}
