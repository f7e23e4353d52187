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
/** Between pairs low on the sprig; they crowd toward the tip. */
const NODE_M = 0.0075;

const nodeHeightM = (pair: number, pairs: number): number =>
  NODE_M * pair * (1 - (0.35 * pair) / Math.max(1, pairs - 1));

/** Height of the leafy part over its lowest pair. */
export const sprigHeightM = ({ pairs, leafLengthM }: Mint): number => nodeHeightM(pairs - 1, pairs) + 0.7 * leafLengthM;

/**
 * A sprig along local y: the stem from `-stemM` up, leaves in pairs from height 0, each pair at right angles to the one
 * below, the upper ones smaller and steeper, all a little uneven by seed.
 */
export function mintParts(mint: Mint, stemM: number): GarnishPart[] {
  const random = createRandom(mint.seed);
  const topM = nodeHeightM(mint.pairs - 1, mint.pairs);
  const parts: GarnishPart[] = dressed(
    MINT_STEM,
    rodParts('stem', [0, -stemM, 0], [0, topM + 0.002, 0], MINT_STEM_RADIUS_M, 0.0006),
  );
  for (let pair = 0; pair < mint.pairs; pair++) {
    const up = mint.pairs > 1 ? pair / (mint.pairs - 1) : 1;
    for (const half of [0, 1]) {
      const heading = (pair % 2) * (Math.PI / 2) + half * Math.PI + radFromDeg(24) * (random() - 0.5);
      const lift = radFromDeg(16 + 50 * up + 20 * (random() - 0.5));
      const lengthM = mint.leafLengthM * (1 - 0.6 * up * up) * (0.85 + 0.3 * random());
      const leaf = leafMesh(lengthM, random);
      parts.push({
        role: 'leaf',
        shape: leaf,
        worldFromLocal: compose(leafFrame(heading, lift, nodeHeightM(pair, mint.pairs)), IDENTITY),
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
 * One leaf in its own frame, from the origin along x: a broad oval with a fine saw-toothed edge, folded along its midrib,
 * bent down toward the tip, quilted between the veins, which run out and forward from the midrib.
 */
function leafMesh(lengthM: number, random: () => number): MeshShape {
  const widthM = lengthM * (0.3 + 0.05 * random());
  const fold = 0.25 + 0.3 * random();
  const droop = 0.35 + 0.55 * random();
  const twist = 0.6 * (random() - 0.5);
  const phase = random();
  return gridMesh(28, 8, (u, v) => {
    const s = u;
    const across = 2 * v - 1;
    const out = Math.abs(across);
    const saw = 1 + 0.035 * Math.sin(2 * Math.PI * (7 * s + phase)) * out ** 5 * Math.sin(Math.PI * s);
    const half = widthM * Math.sin(Math.PI * s ** 0.78) ** 0.7 * saw;
    const z = across * half;
    const bend = droop * s;
    // Along an arc, so that the leaf keeps its length.
    const x = droop > 1e-3 ? (lengthM * Math.sin(bend)) / droop : lengthM * s;
    const down = droop > 1e-3 ? (lengthM * (1 - Math.cos(bend))) / droop : 0;
    const quilt = 0.016 * lengthM * Math.abs(Math.sin(Math.PI * (6 * s - 1.6 * out))) * Math.sin(Math.PI * out) ** 0.5;
    const cup = fold * Math.abs(z) + twist * z * s + quilt * Math.sin(Math.PI * s);
    return [x, cup - down, -z];
  });
}
