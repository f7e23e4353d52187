import { radicalInverse } from '../../core/lowDiscrepancy.ts';
import type { Vec3 } from '../../core/vec3.ts';
import {
  boxSolid,
  type ConvexSolid,
  cutSolid,
  facePlanes,
  type HalfSpace,
  solidVolumeM3,
} from '../parts/convexSolid.ts';
import type { Ice } from '../records.ts';
import { type MeltedIce, meltIce } from './meltIce.ts';

/**
 * One piece of ice about its own middle. For packing every piece counts as its rounded box: half edges less the rounding
 * are the core, grown by a ball of the rounding. Broken ice lies inside that box.
 */
export interface IceBody {
  readonly halfM: Vec3;
  readonly bevelM: number;
  /** Faces of broken ice; left out for boxes and balls. */
  readonly broken?: ConvexSolid;
  readonly volumeM3: number;
  /** n x 3, spread evenly through the piece: for finding how deep it floats. */
  readonly samples: Float64Array;
}

const SAMPLES = 1200;
/** Broken ice comes in numbers. */
const BROKEN_SAMPLES = 500;

/** The pieces of one glass of ice in the order in which they are placed. All cubes are one body. */
export function makeIceBodies(ice: Ice, inDrink: boolean, random: () => number): IceBody[] {
  const melted = meltIce(ice, inDrink);
  if (!melted || ice.count === 0) return [];
  if (melted.form !== 'cracked' && melted.form !== 'crushed') {
    const body = boxBody(melted.halfM, melted.bevelM);
    return Array.from({ length: ice.count }, () => body);
  }
  const bodies = Array.from({ length: ice.count }, () => brokenBody(melted, random));
  // Large pieces first: small ones find room between them.
  return bodies.sort((a, b) => b.volumeM3 - a.volumeM3);
}

export function boxBody(halfM: Vec3, bevelM: number): IceBody {
  const core: Vec3 = [halfM[0] - bevelM, halfM[1] - bevelM, halfM[2] - bevelM];
  const past = (v: number, c: number): number => Math.max(0, Math.abs(v) - c);
  return {
    halfM,
    bevelM,
    volumeM3: roundedBoxVolumeM3(halfM, bevelM),
    samples: samplesWithin(
      halfM,
      (x, y, z) => past(x, core[0]) ** 2 + past(y, core[1]) ** 2 + past(z, core[2]) ** 2 <= bevelM ** 2,
    ),
  };
}

/** Steiner's formula: core box, slabs on its faces, quarter cylinders on its edges, eighths of a ball on its corners. */
export function roundedBoxVolumeM3(half: Vec3, b: number): number {
  const [x, y, z] = [2 * (half[0] - b), 2 * (half[1] - b), 2 * (half[2] - b)];
  return x * y * z + 2 * b * (x * y + y * z + z * x) + Math.PI * b * b * (x + y + z) + (4 / 3) * Math.PI * b ** 3;
}

/** How many sides broken ice is given beyond the six of its box. */
const EXTRA_FACES = { cracked: 9, crushed: 6 } as const;

/**
 * A lump with flat faces: a box of uneven edges with corners and edges struck off by planes at chance angles. Melting
 * moves the planes in and adds one across every corner.
 */
function brokenBody(melted: MeltedIce, random: () => number): IceBody {
  const crushed = melted.form === 'crushed';
  const stretch = (): number => (crushed ? 0.55 + 0.45 * random() : 0.62 + 0.38 * random());
  const half: Vec3 = [melted.halfM[0] * stretch(), melted.halfM[1] * stretch(), melted.halfM[2] * stretch()];
  let solid = boxSolid(half);
  const faces = crushed ? EXTRA_FACES.crushed : EXTRA_FACES.cracked;
  for (let k = 0; k < faces; k++) {
    const normal = randomDirection(random);
    const reach = Math.abs(normal[0]) * half[0] + Math.abs(normal[1]) * half[1] + Math.abs(normal[2]) * half[2];
    solid = cutSolid(solid, { normal, offsetM: reach * (0.6 + 0.24 * random()) });
  }
  if (melted.roundedM > 0) solid = roundSolid(solid, melted.roundedM);
  const planes = facePlanes(solid);
  return {
    halfM: half,
    bevelM: 0,
    broken: solid,
    volumeM3: solidVolumeM3(solid),
    samples: samplesWithin(half, (x, y, z) => isWithin(planes, x, y, z), BROKEN_SAMPLES),
  };
}

/** Strikes off every corner by a plane square to its direction, `depthM` under it. */
function roundSolid(solid: ConvexSolid, depthM: number): ConvexSolid {
  let out = solid;
  for (const p of solid.corners) {
    const l = Math.hypot(...p);
    const normal: Vec3 = [p[0] / l, p[1] / l, p[2] / l];
    out = cutSolid(out, { normal, offsetM: l - Math.min(depthM, 0.25 * l) });
  }
  return out;
}

function isWithin(planes: readonly HalfSpace[], x: number, y: number, z: number): boolean {
  for (const { normal: n, offsetM } of planes) if (n[0] * x + n[1] * y + n[2] * z > offsetM) return false;
  return true;
}

function randomDirection(random: () => number): Vec3 {
  const y = 2 * random() - 1;
  const phi = 2 * Math.PI * random();
  const r = Math.sqrt(1 - y * y);
  return [r * Math.cos(phi), y, r * Math.sin(phi)];
}

/** Halton points of the unit cube (bases 2, 3, 5), -1..1 each way. */
const HALTON = Float64Array.from({ length: 3 * 2.5 * SAMPLES }, (_, i) => {
  const base = [2, 3, 5][i % 3];
  return 2 * radicalInverse(base, Math.floor(i / 3) + 1) - 1;
});

/** Those of them that lie in the body, stretched to its box; at most `most`. */
function samplesWithin(half: Vec3, isIn: (x: number, y: number, z: number) => boolean, most = SAMPLES): Float64Array {
  const out = new Float64Array(3 * most);
  let n = 0;
  for (let i = 0; i + 2 < HALTON.length && n < 3 * most; i += 3) {
    const x = HALTON[i] * half[0];
    const y = HALTON[i + 1] * half[1];
    const z = HALTON[i + 2] * half[2];
    if (!isIn(x, y, z)) continue;
    out[n++] = x;
    out[n++] = y;
    out[n++] = z;
  }
  return out.slice(0, n);
}
