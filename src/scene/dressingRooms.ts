import type { Vec3 } from '../core/vec3.ts';
import { BOARD_LIFT_M } from './clearances.ts';
import type { DressingPiece } from './dressingRecords.ts';
import { napkinHeightM } from './pieces/dressing/cloth.ts';

/** A box of the piece's own frame that nothing else can stand in. */
export interface Room {
  readonly minM: Vec3;
  readonly maxM: Vec3;
}

const LIGHT_TABLE_SHEET_M = 0.003;
const CARD_M = 0.004;
/** Ball as stacked boxes: so many, each within the ball. */
const BALL_SLICES = 8;

/**
 * What a piece of dressing takes up, as boxes: for asking what stands in what, and for what stands in the light's way.
 * Leaves, spoons and cards on the table take up no room worth asking for.
 */
export function roomsOfDressing(piece: DressingPiece): Room[] {
  switch (piece.kind) {
    case 'step':
      return Array.from({ length: piece.steps }, (_, i) => {
        const front = (piece.steps * piece.treadM) / 2 - i * piece.treadM;
        return box(piece.widthM, [BOARD_LIFT_M, (i + 1) * piece.riserM], [front - piece.treadM, front]);
      });
    case 'arch':
      return [
        ...besideOpening(piece, [BOARD_LIFT_M, piece.heightM], piece.depthM),
        box(piece.widthM, [piece.openingHeightM, piece.heightM], [-piece.depthM / 2, piece.depthM / 2]),
      ];
    case 'sphere':
      return ballRooms(piece.diameterM / 2);
    case 'slattedWall':
      return [box(piece.widthM, [BOARD_LIFT_M, piece.heightM], [-piece.thicknessM, piece.slatDepthM])];
    case 'mouldedWall':
      return [box(piece.widthM, [BOARD_LIFT_M, piece.heightM], [-piece.thicknessM, 0])];
    case 'reedScreen':
      return [box(piece.widthM, [BOARD_LIFT_M, piece.heightM], [-piece.reedM / 2, piece.reedM / 2])];
    case 'slatScreen': {
      const tilt = (piece.tiltDeg * Math.PI) / 180;
      const half = (piece.slatWidthM * Math.abs(Math.sin(tilt)) + piece.slatThicknessM * Math.abs(Math.cos(tilt))) / 2;
      return [box(piece.widthM, [BOARD_LIFT_M, piece.heightM], [-half, half])];
    }
    case 'windowCutter': {
      const sill = piece.shape === 'window' ? (piece.heightM - piece.openingHeightM) / 2 : 0;
      const low = piece.standM + sill;
      const card: readonly [number, number] = [piece.standM, piece.standM + piece.heightM];
      const beside = besideOpening(piece, card, CARD_M);
      const over = box(piece.widthM, [low + piece.openingHeightM, card[1]], [-CARD_M / 2, CARD_M / 2]);
      const under = box(piece.widthM, [card[0], low], [-CARD_M / 2, CARD_M / 2]);
      return sill > 0 ? [...beside, over, under] : [...beside, over];
    }
    case 'dappleCutter':
      return [box(piece.widthM, [piece.standM, piece.standM + piece.heightM], [-CARD_M / 2, CARD_M / 2])];
    case 'lightTable':
      return [
        box(piece.widthM, [piece.heightM - LIGHT_TABLE_SHEET_M, piece.heightM], [-piece.depthM / 2, piece.depthM / 2]),
      ];
    case 'coaster': {
      const half = piece.widthM / 2;
      const high: readonly [number, number] = [BOARD_LIFT_M, piece.thicknessM];
      return piece.shape === 'round' ? discRooms(half, high) : [box(piece.widthM, high, [-half, half])];
    }
    case 'tray': {
      const high: readonly [number, number] = [BOARD_LIFT_M, piece.floorM + BOARD_LIFT_M];
      if (piece.shape === 'round') return discRooms(piece.widthM / 2, high);
      return [box(piece.widthM, high, [-piece.depthM / 2, piece.depthM / 2])];
    }
    case 'napkin':
      return [box(piece.widthM, [BOARD_LIFT_M, napkinHeightM(piece)], [-piece.depthM / 2, piece.depthM / 2])];
    case 'book':
      return [box(piece.widthM, [BOARD_LIFT_M, piece.thicknessM], [-piece.depthM / 2, piece.depthM / 2])];
    case 'plant':
      return piece.potDiameterM > 0 ? discRooms(piece.potDiameterM / 2, [BOARD_LIFT_M, piece.potHeightM]) : [];
    case 'spoon':
    case 'branch':
    case 'greyCard':
    case 'greyRamp':
    case 'ownShape':
      return [];
  }
}

const box = (widthM: number, y: readonly [number, number], z: readonly [number, number]): Room => ({
  minM: [-widthM / 2, y[0], z[0]],
  maxM: [widthM / 2, y[1], z[1]],
});

/** What is left and right of an opening. */
function besideOpening(
  { widthM, openingWidthM }: { readonly widthM: number; readonly openingWidthM: number },
  [low, high]: readonly [number, number],
  depthM: number,
): Room[] {
  const [w, a, d] = [widthM / 2, openingWidthM / 2, depthM / 2];
  return [
    { minM: [-w, low, -d], maxM: [-a, high, d] },
    { minM: [a, low, -d], maxM: [w, high, d] },
  ];
}

/** A disc as three boxes whose corners lie on its circle. */
const discRooms = (radiusM: number, y: readonly [number, number]): Room[] =>
  [Math.PI / 8, Math.PI / 4, (3 * Math.PI) / 8].map((phi) => {
    const [half, deep] = [radiusM * Math.cos(phi), radiusM * Math.sin(phi)];
    return box(2 * half, y, [-deep, deep]);
  });

function ballRooms(radiusM: number): Room[] {
  return Array.from({ length: BALL_SLICES }, (_, i): Room => {
    const low = -radiusM + (2 * radiusM * i) / BALL_SLICES;
    const high = low + (2 * radiusM) / BALL_SLICES;
    const far = Math.max(Math.abs(low), Math.abs(high));
    // A square within the narrower of the slice's two circles.
    const half = Math.sqrt(Math.max(0, radiusM ** 2 - far ** 2)) * Math.SQRT1_2;
    const up = radiusM + BOARD_LIFT_M;
    return { minM: [-half, low + up, -half], maxM: [half, high + up, half] };
  }).filter(({ minM, maxM }) => maxM[0] > minM[0]);
}
