import { compose, fromAxes, type RigidTransform } from '../../../core/rigid.ts';
import { createRandom } from '../../../core/rng.ts';
import { cross, normalize, type Vec3 } from '../../../core/vec3.ts';
import { type Built, builtOf, leftOut } from '../../built.ts';
import { BOARD_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { cannotMake, inMm } from '../../problems.ts';
import { createFaceMesh } from './faceMesh.ts';
import { dressSides, type Side } from './side.ts';

export const MOST_REEDS = 600;

/**
 * Reeds as exact round bars. Unevenness moves, thins, shortens and leans them within their pitch; a broken reed ends
 * somewhere between 15 and 75 % of its height. Cords run before and behind.
 */
export function buildReedScreen(piece: DressingOf<'reedScreen'>, placement: RigidTransform): Built {
  const { widthM, heightM, reedM, pitchM, unevenness, brokenShare, cords } = piece;
  if (reedM > pitchM) {
    return leftOut([
      cannotMake(
        piece.id,
        'reeds-too-thick',
        'reedM',
        reedM,
        `reedM is more than pitchM: keep it at ${inMm(pitchM)} or less.`,
      ),
    ]);
  }
  const count = Math.floor((widthM - reedM) / pitchM + 1e-9) + 1;
  if (count > MOST_REEDS) {
    return leftOut([
      cannotMake(
        piece.id,
        'too-many-reeds',
        'pitchM',
        pitchM,
        `${count} reeds are more than can be made: make pitchM ${inMm(widthM / MOST_REEDS)} or more.`,
      ),
    ]);
  }
  const random = createRandom(piece.seed);
  const spread = (): number => (2 * random() - 1) * unevenness;
  const roomM = pitchM - reedM;
  const sides: Side[] = [];
  for (let i = 0; i < count; i++) {
    const radiusM = (reedM / 2) * (1 - 0.35 * unevenness * random());
    const footX = ((count - 1) / -2 + i) * pitchM + 0.45 * roomM * spread();
    // The thinner half of the gap is left free, so that neighbours may lean toward one another.
    const lean = 0.45 * roomM * spread();
    const leanBack = 0.5 * reedM * spread();
    const broken = random() < brokenShare;
    const cut = 0.15 + 0.6 * random();
    const top = heightM * (1 - 0.06 * unevenness * random());
    const rise = (broken ? cut * top : top) - BOARD_LIFT_M;
    const share = rise / heightM;
    const foot: Vec3 = [footX, BOARD_LIFT_M, 0];
    const along = normalize([lean * share, rise, leanBack * share]);
    sides.push(...rodSides(broken ? 'broken reed' : 'reed', foot, along, rise, radiusM, placement));
  }
  if (cords > 0) sides.push(cordsSide(piece, placement));
  return builtOf(dressSides(piece.id, sides, piece.finish));
}

/** A round bar with flat ends: side, lower and upper end. */
export function rodSides(
  role: string,
  foot: Vec3,
  along: Vec3,
  lengthM: number,
  radiusM: number,
  placement: RigidTransform,
): Side[] {
  const x = normalize(cross(along, Math.abs(along[2]) < 0.9 ? [0, 0, 1] : [0, 1, 0]));
  const worldFromLocal = compose(placement, fromAxes(x, along, cross(x, along), foot));
  const turned = (r0M: number, y0M: number, r1M: number, y1M: number): Side => ({
    role,
    shape: { type: 'revolvedLine', r0M, y0M, r1M, y1M },
    worldFromLocal,
  });
  return [turned(0, 0, radiusM, 0), turned(radiusM, 0, radiusM, lengthM), turned(radiusM, lengthM, 0, lengthM)];
}

function cordsSide({ widthM, heightM, reedM, cords }: DressingOf<'reedScreen'>, placement: RigidTransform): Side {
  const mesh = createFaceMesh();
  const thick = Math.max(0.0008, reedM * 0.2);
  for (let i = 0; i < cords; i++) {
    const y = (heightM * 0.94 * (i + 0.5)) / cords;
    for (const side of [-1, 1] as const) {
      const near = side * (reedM * 1.05);
      const far = near + side * thick;
      mesh.box([-widthM / 2, y - thick, Math.min(near, far)], [widthM / 2, y + thick, Math.max(near, far)]);
    }
  }
  return { role: 'cords', shape: mesh.build(), worldFromLocal: placement };
}

export const MOST_BLIND_SLATS = 400;
/** How far slats go into their posts. */
const SLAT_TENON_M = 0.004;

/** Flat slats, each a closed board turned about its length, between two posts. */
export function buildSlatScreen(piece: DressingOf<'slatScreen'>, placement: RigidTransform): Built {
  const { widthM, heightM, slatWidthM, slatThicknessM, pitchM, frameM, unevenness } = piece;
  const level = piece.direction === 'level';
  const acrossM = (level ? heightM : widthM) - BOARD_LIFT_M;
  const alongM = (level ? widthM : heightM - BOARD_LIFT_M) - 2 * frameM;
  const problem = (code: string, field: string, value: number, message: string): Built =>
    leftOut([cannotMake(piece.id, code, field, value, message)]);
  if (alongM <= 0) {
    return problem('posts-too-wide', 'frameM', frameM, 'frameM leaves no room between the posts: make it smaller.');
  }
  const room = Math.max(slatThicknessM, slatWidthM * Math.abs(Math.cos((piece.tiltDeg * Math.PI) / 180)));
  const count = Math.floor((acrossM - room) / pitchM + 1e-9) + 1;
  if (count < 1 || count > MOST_BLIND_SLATS) {
    return problem(
      count < 1 ? 'slat-wider-than-screen' : 'too-many-slats',
      count < 1 ? 'slatWidthM' : 'pitchM',
      count < 1 ? slatWidthM : pitchM,
      count < 1
        ? `slatWidthM is more than the screen: keep it at ${inMm(acrossM)} or less.`
        : `${count} slats are more than can be made: make pitchM ${inMm(acrossM / MOST_BLIND_SLATS)} or more.`,
    );
  }
  const random = createRandom(piece.seed);
  const mesh = createFaceMesh();
  // Into the posts, so that no end lies in the plane of a post's face.
  const half: Vec3 = [alongM / 2 + Math.min(SLAT_TENON_M, frameM / 2), slatWidthM / 2, slatThicknessM / 2];
  const middleYM = BOARD_LIFT_M + (heightM - BOARD_LIFT_M) / 2;
  for (let i = 0; i < count; i++) {
    const uneven = (): number => (2 * random() - 1) * unevenness;
    const offset = ((count - 1) / -2 + i) * pitchM + 0.15 * pitchM * uneven();
    const tilt = ((piece.tiltDeg + 14 * uneven()) * Math.PI) / 180;
    const droop = 0.006 * uneven();
    const missing = random() < piece.missingShare;
    if (missing) continue;
    const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
    mesh.box([-half[0], -half[1], -half[2]], half, ([x, y, z]) => {
      const along = x;
      const across = offset + c * y - s * z + droop * x;
      const out = s * y + c * z;
      return level ? [along, middleYM + across, out] : [across, middleYM + along, out];
    });
  }
  const sides: Side[] = [
    { role: 'slats', shape: level ? mesh.build() : mirrored(mesh.build()), worldFromLocal: placement },
  ];
  if (frameM > 0) sides.push(postsSide(piece, placement));
  return builtOf(dressSides(piece.id, sides, piece.finish));
}

/** Swapping two axes turned the faces inside out; this turns them back. */
function mirrored<M extends { readonly indices: Uint32Array }>(mesh: M): M {
  const indices = Uint32Array.from(mesh.indices);
  for (let i = 0; i < indices.length; i += 3) [indices[i + 1], indices[i + 2]] = [indices[i + 2], indices[i + 1]];
  return { ...mesh, indices };
}

function postsSide(piece: DressingOf<'slatScreen'>, placement: RigidTransform): Side {
  const { widthM, heightM, frameM, slatWidthM } = piece;
  const mesh = createFaceMesh();
  const depth = Math.max(slatWidthM / 2, 0.006);
  const w = widthM / 2;
  if (piece.direction === 'level') {
    mesh.box([-w, BOARD_LIFT_M, -depth], [-w + frameM, heightM, depth]);
    mesh.box([w - frameM, BOARD_LIFT_M, -depth], [w, heightM, depth]);
  } else {
    mesh.box([-w, BOARD_LIFT_M, -depth], [w, BOARD_LIFT_M + frameM, depth]);
    mesh.box([-w, heightM - frameM, -depth], [w, heightM, depth]);
  }
  return { role: 'posts', shape: mesh.build(), worldFromLocal: placement };
}
