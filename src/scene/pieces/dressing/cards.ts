import { compose, fromAxes, type RigidTransform } from '../../../core/rigid.ts';
import type { Vec3 } from '../../../core/vec3.ts';
import type { Finish } from '../../../materials/finish.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import { type Built, builtOf } from '../../built.ts';
import { BOARD_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { quadSide, type Side } from './side.ts';

export const CARD_THICKNESS_M = 0.002;

const grey = (reflectance: number): Finish => ({
  type: 'matte',
  reflectanceRgb: [reflectance, reflectance, reflectance],
});
/** Back and edges. Invented: dark grey board. */
const BACK = grey(0.08);

/** Where cards stand: leaned back about their lower back edge, the lowest point BOARD_LIFT_M up. */
export function leanFrame(leanDeg: number): RigidTransform {
  const lean = (leanDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(lean), Math.sin(lean)];
  // The front stands at z = 0 while upright; leaned, its lower edge lifts by s times the thickness at most.
  return fromAxes([1, 0, 0], [0, c, -s], [0, s, c], [0, BOARD_LIFT_M + CARD_THICKNESS_M * s, 0]);
}

interface CardSizes {
  readonly id: string;
  readonly widthM: number;
  readonly heightM: number;
  readonly leanDeg: number;
}

/**
 * A closed board whose front is a grid of patches. `cutsX` and `cutsY` are shares of width and height from 0 to 1; the
 * finish of a patch is asked for by its column and row, from lower left.
 */
function buildPatchBoard(
  sizes: CardSizes,
  placement: RigidTransform,
  cuts: { readonly x: readonly number[]; readonly y: readonly number[] },
  patch: (column: number, row: number) => { readonly role: string; readonly finish: Finish },
): Built {
  const { id, widthM, heightM } = sizes;
  const frame = compose(placement, leanFrame(sizes.leanDeg));
  const x = cuts.x.map((t) => (t - 0.5) * widthM);
  const y = cuts.y.map((t) => t * heightM);
  const back = -CARD_THICKNESS_M;
  const surfaces: OpticalSurface[] = [];
  const put = (side: Side, finish: Finish): void => {
    surfaces.push({ recordId: id, ...side, finish });
  };
  const quad = (role: string, o: Vec3, u: Vec3, v: Vec3): Side => quadSide(role, o, u, v, frame);
  const inward: Vec3 = [0, 0, back];
  for (let i = 0; i + 1 < x.length; i++) {
    const across: Vec3 = [x[i + 1] - x[i], 0, 0];
    for (let j = 0; j + 1 < y.length; j++) {
      const up: Vec3 = [0, y[j + 1] - y[j], 0];
      const { role, finish } = patch(i, j);
      put(quad(role, [x[i], y[j], 0], across, up), finish);
      put(quad('back', [x[i + 1], y[j], back], [-across[0], 0, 0], up), BACK);
      if (i === 0) put(quad('edge', [x[0], y[j], back], [0, 0, -back], up), BACK);
      if (i + 2 === x.length) put(quad('edge', [x[i + 1], y[j], 0], inward, up), BACK);
    }
    put(quad('edge', [x[i], heightM, 0], across, inward), BACK);
    put(quad('edge', [x[i], 0, 0], inward, across), BACK);
  }
  return builtOf(surfaces);
}

/** Grey field over three fifths of the width, white over black beside it. */
export function buildGreyCard(piece: DressingOf<'greyCard'>, placement: RigidTransform): Built {
  return buildPatchBoard(piece, placement, { x: [0, 0.6, 1], y: [0, 0.5, 1] }, (column, row) => {
    if (column === 0) return { role: 'grey patch', finish: grey(piece.greyReflectance) };
    return row === 0
      ? { role: 'black patch', finish: grey(piece.blackReflectance) }
      : { role: 'white patch', finish: grey(piece.whiteReflectance) };
  });
}

/** Reflectance of patch i, counted from the lightest. */
export const rampReflectance = (
  { lightestReflectance, stepStops }: Pick<DressingOf<'greyRamp'>, 'lightestReflectance' | 'stepStops'>,
  i: number,
): number => lightestReflectance * 2 ** (-i * stepStops);

/** Equal patches, each `stepStops` under the one to its left. */
export function buildGreyRamp(piece: DressingOf<'greyRamp'>, placement: RigidTransform): Built {
  const x = Array.from({ length: piece.steps + 1 }, (_, i) => i / piece.steps);
  return buildPatchBoard(piece, placement, { x, y: [0, 1] }, (column) => ({
    role: `patch ${column + 1}`,
    finish: grey(rampReflectance(piece, column)),
  }));
}
