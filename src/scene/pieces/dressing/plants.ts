import { compose, type RigidTransform, translation } from '../../../core/rigid.ts';
import { createRandom } from '../../../core/rng.ts';
import { add, normalize, scale, sub, type Vec3 } from '../../../core/vec3.ts';
import type { Finish } from '../../../materials/finish.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import { type Built, builtOf, leftOut } from '../../built.ts';
import { BOARD_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { cannotMake } from '../../problems.ts';
import { arcAbout, joinPieces, lineBetween, profilePoint, shapeFromPiece } from '../../profile/index.ts';
import { addLeaf, addStem, createFoliage, type Foliage } from './foliage.ts';

/** Invented: grey-brown bark, green stalks, damp potting soil. */
const BARK: Finish = { type: 'matte', reflectanceRgb: [0.13, 0.095, 0.065] };
const STALK: Finish = { type: 'matte', reflectanceRgb: [0.11, 0.17, 0.05] };
const SOIL: Finish = { type: 'matte', reflectanceRgb: [0.035, 0.025, 0.018] };

interface Growth {
  readonly random: () => number;
  readonly stems: Foliage;
  readonly leaves: Foliage;
}

const growthOf = (seed: number): Growth => ({
  random: createRandom(seed),
  stems: createFoliage(),
  leaves: createFoliage(),
});

/** A branch that sags and wanders, with twigs to both sides and leaves along them. */
export function buildBranch(piece: DressingOf<'branch'>, placement: RigidTransform): Built {
  const growth = growthOf(piece.seed);
  const { random } = growth;
  const { lengthM, twigs, leafLengthM } = piece;
  const pitch = (piece.pitchDeg * Math.PI) / 180;
  const spine: Vec3[] = [];
  const steps = 10;
  const wander = [random() * 6.28, random() * 6.28];
  for (let i = 0; i <= steps; i++) {
    const t = i / steps;
    const sway = 0.035 * lengthM * t;
    spine.push([
      lengthM * t * Math.cos(pitch),
      lengthM * (t * Math.sin(pitch) - 0.05 * t * t) + sway * Math.sin(wander[0] + 5 * t),
      sway * Math.sin(wander[1] + 4 * t),
    ]);
  }
  const radiusM = Math.max(0.0015, lengthM * 0.011);
  addStem(growth.stems, spine, radiusM, radiusM * 0.35);
  for (let k = 0; k < twigs; k++) {
    const t = 0.22 + (0.76 * (k + 0.7 * random())) / twigs;
    const at = pointAlong(spine, t);
    const forward = normalize(sub(pointAlong(spine, Math.min(1, t + 0.05)), pointAlong(spine, t - 0.05)));
    const side = (k % 2 === 0 ? 1 : -1) * (0.7 + 0.5 * random());
    const direction = normalize(add(forward, [0, 0.35 * (random() - 0.4), side]));
    const twigM = Math.max(leafLengthM * 1.2, lengthM * 0.3 * (1 - 0.55 * t) * (0.7 + 0.6 * random()));
    growTwig(growth, piece, at, direction, twigM, radiusM * 0.35);
  }
  return builtOf(growthSurfaces(piece, growth, placement, BARK));
}

/** Twig with leaves to either side and one at its tip. */
function growTwig(
  growth: Growth,
  piece: DressingOf<'branch'>,
  from: Vec3,
  direction: Vec3,
  lengthM: number,
  radiusM: number,
): void {
  const { random } = growth;
  const sag = 0.1 + 0.15 * random();
  const line = [0, 0.25, 0.5, 0.75, 1].map(
    (t): Vec3 =>
      add(from, [direction[0] * lengthM * t, (direction[1] * t - sag * t * t) * lengthM, direction[2] * lengthM * t]),
  );
  addStem(growth.stems, line, radiusM, radiusM * 0.45);
  growLeaves(growth, piece, line, piece.leavesPerTwig, 0.25);
}

function growLeaves(
  growth: Growth,
  piece: Pick<DressingOf<'branch'>, 'leafShape' | 'leafLengthM'>,
  line: readonly Vec3[],
  count: number,
  from: number,
): void {
  const { random, leaves } = growth;
  for (let i = 0; i < count; i++) {
    const tip = i === count - 1;
    const t = tip ? 1 : from + ((1 - from) * (i + 0.5 * random())) / count;
    const at = pointAlong(line, t);
    const forward = normalize(sub(pointAlong(line, Math.min(1, t + 0.1)), pointAlong(line, Math.max(0, t - 0.1))));
    const side = tip ? 0.2 * (random() - 0.5) : (i % 2 === 0 ? 1 : -1) * (0.8 + 0.5 * random());
    const out: Vec3 = normalize([-forward[2], 0, forward[0]]);
    const flat = Math.hypot(forward[0], forward[2]) > 0.2;
    const turn = 2 * Math.PI * random();
    const away: Vec3 = flat ? scale(out, side) : [Math.cos(turn) * side, 0, Math.sin(turn) * side];
    const along = normalize(add(add(forward, away), [0, 0.2 * (random() - 0.5), 0]));
    const facing = normalize([0.5 * (random() - 0.5), 1, 0.5 * (random() - 0.5)]);
    addLeaf(leaves, piece.leafShape, {
      baseM: at,
      along,
      facing,
      lengthM: piece.leafLengthM * (0.7 + 0.6 * random()),
      droop: 0.1 + 0.45 * random(),
    });
  }
}

/** Stems that rise and fan out from one foot, with leaves along their upper part; a turned pot if it has a size. */
export function buildPlant(piece: DressingOf<'plant'>, placement: RigidTransform): Built {
  const { heightM, spreadM, potDiameterM, potHeightM } = piece;
  const potted = potDiameterM > 0;
  const soilYM = potted ? potHeightM * SOIL_SHARE : BOARD_LIFT_M;
  if (heightM <= soilYM * 1.2) {
    return leftOut([
      cannotMake(
        piece.id,
        'pot-too-high',
        'potHeightM',
        potHeightM,
        'The pot is as high as the plant: make potHeightM less or heightM more.',
      ),
    ]);
  }
  const growth = growthOf(piece.seed);
  const { random } = growth;
  const footM = potted ? potDiameterM * 0.22 : Math.min(0.01, spreadM * 0.05);
  for (let k = 0; k < piece.stems; k++) {
    const turn = (2 * Math.PI * (k + 0.6 * random())) / piece.stems;
    // Inner stems stand upright, outer ones lean out.
    const outward = Math.sqrt((k * 0.618034 + random() * 0.2) % 1);
    const reachM = Math.max(0, (spreadM / 2) * outward - piece.leafLengthM * 0.5);
    const topM = (heightM - soilYM) * (1 - 0.45 * outward * outward) * (0.82 + 0.18 * random());
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const line = [0, 0.2, 0.4, 0.6, 0.8, 1].map((t): Vec3 => {
      const r = footM * outward + reachM * t * t;
      return [c * r, soilYM - 0.004 + topM * t * (1 - 0.12 * t * outward), s * r];
    });
    const radiusM = Math.max(0.0008, heightM * 0.005);
    addStem(growth.stems, line, radiusM, radiusM * 0.5);
    growLeaves(growth, piece, line, piece.leavesPerStem, 0.3);
  }
  return builtOf([
    ...growthSurfaces(piece, growth, placement, STALK),
    ...(potted ? potSurfaces(piece, placement) : []),
  ]);
}

const SOIL_SHARE = 0.88;

/** Turned pot, narrower at its foot, with a half-round rim and soil: one closed body. */
function potSurfaces(piece: DressingOf<'plant'>, placement: RigidTransform): OpticalSurface[] {
  const { potDiameterM, potHeightM } = piece;
  const wallM = Math.min(0.006, potDiameterM * 0.06);
  const rimM = potDiameterM / 2;
  const footM = rimM * 0.72;
  const topM = potHeightM - BOARD_LIFT_M;
  const rimYM = topM - wallM / 2;
  const soilYM = potHeightM * SOIL_SHARE - BOARD_LIFT_M;
  const rim = arcAbout(profilePoint(rimM - wallM / 2, rimYM), wallM / 2, 0, Math.PI);
  const soilAt = profilePoint(rimM - wallM, Math.min(soilYM, rimYM * 0.98));
  const pieces = joinPieces([
    lineBetween(profilePoint(0, 0), profilePoint(footM, 0)),
    lineBetween(profilePoint(footM, 0), rim.from),
    rim,
    lineBetween(rim.to, soilAt),
    lineBetween(soilAt, profilePoint(0, soilAt.yM)),
  ]);
  const roles = ['pot underside', 'pot', 'pot rim', 'pot inside', 'soil'];
  const worldFromLocal = compose(placement, translation([0, BOARD_LIFT_M, 0]));
  return pieces.map((profile, i) => ({
    recordId: piece.id,
    role: roles[i],
    shape: shapeFromPiece(profile),
    worldFromLocal,
    finish: roles[i] === 'soil' ? SOIL : piece.potFinish,
  }));
}

function growthSurfaces(
  piece: { readonly id: string; readonly finish: Finish },
  { stems, leaves }: Growth,
  worldFromLocal: RigidTransform,
  stemFinish: Finish,
): OpticalSurface[] {
  const foliage: OpticalSurface = {
    recordId: piece.id,
    role: 'leaves',
    shape: leaves.build(),
    worldFromLocal,
    finish: piece.finish,
  };
  const wood: OpticalSurface = {
    recordId: piece.id,
    role: 'stems',
    shape: stems.build(),
    worldFromLocal,
    finish: stemFinish,
  };
  return foliage.shape.type === 'mesh' && foliage.shape.indices.length > 0 ? [foliage, wood] : [wood];
}

/** Point at t in 0..1 along a line of points, by number. */
function pointAlong(line: readonly Vec3[], t: number): Vec3 {
  const at = Math.min(1, Math.max(0, t)) * (line.length - 1);
  const i = Math.min(line.length - 2, Math.floor(at));
  const f = at - i;
  return add(scale(line[i], 1 - f), scale(line[i + 1], f));
}
