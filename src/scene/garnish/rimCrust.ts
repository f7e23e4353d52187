import { IDENTITY } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import type { MeshShape } from '../../core/shape.ts';
import { radFromDeg } from '../../core/units.ts';
import { addScaled, cross, normalize, type Vec3 } from '../../core/vec3.ts';
import type { Finish } from '../../materials/finish.ts';
import type { GlassBody } from '../glassware/glassBody.ts';
import { createMeshBuilder } from '../parts/mesh.ts';
import { directionAlong, type ProfilePiece, pieceLengthM, pointAlong, splitProfileAtHeight } from '../profile/index.ts';
import type { RimCrust } from '../records.ts';
import type { GarnishPart } from './garnishPart.ts';
import { SALT, SALT_BED, SUGAR, SUGAR_BED } from './looks.ts';

/** Thickness of the bed of grains that the larger crystals sit in: mean, and how much it varies. */
const BED_M = 0.00028;
const BED_ROUGH_M = 0.0002;
/** Columns of the bed in a full turn, and how far its lower edge strays. */
const BED_COLUMNS = 130;
const MOST_BED_SQUARES = 800;
const RAGGED_M = 0.0012;
/** Corners of cubes, three faces each: at most 399 squares. */
const MOST_CRYSTALS = 133;
const SIZE_M: Readonly<Record<RimCrust['kind'], readonly [number, number]>> = {
  salt: [0.0007, 0.0016],
  sugar: [0.0004, 0.0009],
};
const CRYSTALS_PER_M2 = 90_000;

/**
 * Salt or sugar on a rim: a bed of grains over the rim and a little way down both sides, one mesh of uneven facets with a
 * ragged lower edge (at most 800 squares), and on it one mesh of corners of small cubes that point out of it any way.
 */
export function rimCrustParts(body: GlassBody, crust: RimCrust): GarnishPart[] {
  const [bed, grain] = crust.kind === 'salt' ? [SALT_BED, SALT] : [SUGAR_BED, SUGAR];
  const lowYM = Math.max(body.floorYM, body.rimYM - crust.depthM);
  const outside = body.outside.filter((p) => p.role === 'outer wall' || p.role === 'rim');
  const over = splitProfileAtHeight(outside, lowYM).above.map((p) => p.piece);
  const within = splitProfileAtHeight(body.inside, body.rimYM - Math.min(0.0025, crust.depthM)).above;
  const pieces = [...over, ...within.map((p) => p.piece)];
  const half = radFromDeg(crust.spanDeg) / 2;
  const middle = radFromDeg(crust.azimuthDeg);
  const part = (role: string, shape: MeshShape, finish: Finish): GarnishPart => ({
    role,
    shape,
    worldFromLocal: IDENTITY,
    finish,
  });
  const parts = [part('crust', bedMesh(pieces, crust, middle, half), bed)];
  const crystals = crystalMesh(pieces, crust, middle, half);
  return crystals ? [...parts, part('crystal', crystals, grain)] : parts;
}

/** Rows of the bed along each piece of the rim's outline. */
const rowsOf = (piece: ProfilePiece): number => (piece.type === 'arc' && piece.radiusM < 0.003 ? 2 : 1);

function bedMesh(pieces: readonly ProfilePiece[], crust: RimCrust, middle: number, half: number): MeshShape {
  const random = createRandom(crust.seed ^ 0x9e3779b9);
  const mesh = createMeshBuilder();
  const rows = pieces.flatMap((piece) => {
    const n = Math.max(rowsOf(piece), Math.min(4, Math.ceil(pieceLengthM(piece) / 0.004)));
    return Array.from({ length: n }, (_, k) => ({ piece, t: k / n }));
  });
  rows.push({ piece: pieces[pieces.length - 1], t: 1 });
  const most = Math.min(BED_COLUMNS, Math.floor(MOST_BED_SQUARES / rows.length));
  const columns = Math.max(6, Math.floor((most * half) / Math.PI));
  const closed = crust.spanDeg >= 360;
  const at = (row: number): number[] =>
    Array.from({ length: closed ? columns : columns + 1 }, (_, i) => {
      const { piece, t } = rows[row];
      const edge = row === 0 || row === rows.length - 1;
      // Edges lie on the glass; the lower one strays up and down.
      const strayM = edge ? RAGGED_M * random() : 0.0002 * (random() - 0.5);
      const along = Math.max(0, Math.min(1, t + (row === 0 ? 1 : -1) * (strayM / pieceLengthM(piece))));
      const p = pointAlong(piece, along);
      const d = directionAlong(piece, along);
      const offM = edge ? 0.00003 : BED_M + BED_ROUGH_M * (2 * random() - 1);
      const phi = middle - half + (2 * half * (i + (edge ? 0 : 0.5 * (random() - 0.5)))) / columns;
      const r = p.rM + d.yM * offM;
      return mesh.corner([r * Math.cos(phi), p.yM - d.rM * offM, r * Math.sin(phi)]);
    });
  const grid = rows.map((_, row) => at(row));
  for (let row = 0; row + 1 < grid.length; row++) {
    for (let i = 0; i < columns; i++) {
      const next = closed ? (i + 1) % columns : i + 1;
      mesh.quad(grid[row][i], grid[row + 1][i], grid[row + 1][next], grid[row][next]);
    }
  }
  return mesh.build('flat');
}

function crystalMesh(pieces: readonly ProfilePiece[], crust: RimCrust, middle: number, half: number) {
  const random = createRandom(crust.seed);
  const areas = pieces.map((piece) => pieceLengthM(piece) * pointAlong(piece, 0.5).rM * 2 * half);
  const areaM2 = areas.reduce((sum, a) => sum + a, 0);
  const count = Math.min(MOST_CRYSTALS, Math.round(areaM2 * CRYSTALS_PER_M2));
  if (count === 0) return undefined;
  const [least, most] = SIZE_M[crust.kind];
  const mesh = createMeshBuilder();
  for (let i = 0; i < count; i++) {
    let rest = random() * areaM2;
    const k = areas.findIndex((a) => {
      rest -= a;
      return rest < 0;
    });
    const piece = pieces[k < 0 ? pieces.length - 1 : k];
    const t = random();
    const p = pointAlong(piece, t);
    const d = directionAlong(piece, t);
    const phi = middle + half * (2 * random() - 1);
    const out: Vec3 = [d.yM * Math.cos(phi), -d.rM, d.yM * Math.sin(phi)];
    const rM = p.rM + d.yM * BED_M;
    const at: Vec3 = [rM * Math.cos(phi), p.yM - d.rM * BED_M, rM * Math.sin(phi)];
    addCorner(mesh, at, out, least + (most - least) * random() ** 1.5, random);
  }
  return mesh.build('flat');
}

/** Three faces of a cube round the corner that stands farthest along `out`, leaning by chance, half sunk. */
function addCorner(
  mesh: ReturnType<typeof createMeshBuilder>,
  at: Vec3,
  out: Vec3,
  sizeM: number,
  random: () => number,
): void {
  const lean: Vec3 = normalize([out[0] + random() - 0.5, out[1] + random() - 0.5, out[2] + random() - 0.5]);
  const side = normalize(cross(lean, Math.abs(lean[1]) < 0.9 ? [0, 1, 0] : [1, 0, 0]));
  const spin = 2 * Math.PI * random();
  const other = cross(lean, side);
  // Edges from the top corner run down at the angle of a cube stood on its corner.
  const edges = [0, 1, 2].map((k): Vec3 => {
    const a = spin + (2 * Math.PI * k) / 3;
    const flat = addScaled([side[0] * Math.cos(a), side[1] * Math.cos(a), side[2] * Math.cos(a)], other, Math.sin(a));
    return normalize(addScaled([flat[0], flat[1], flat[2]], lean, -Math.SQRT1_2));
  });
  const top = addScaled(at, lean, 0.55 * sizeM);
  const hub = mesh.corner(top);
  const ends = edges.map((e) => mesh.corner(addScaled(top, e, sizeM)));
  for (let k = 0; k < 3; k++) {
    const next = (k + 1) % 3;
    const far = mesh.corner(addScaled(addScaled(top, edges[k], sizeM), edges[next], sizeM));
    mesh.quad(hub, ends[k], far, ends[next]);
  }
}
