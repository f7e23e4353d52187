import { applyToDirection, applyToPoint, type RigidTransform } from '../../../core/rigid.ts';
import { createRandom } from '../../../core/rng.ts';
import { radFromDeg } from '../../../core/units.ts';
import type { Vec3 } from '../../../core/vec3.ts';
import type { DressingOf, DressingPiece } from '../../../scene/dressingRecords.ts';
import type { SetModel } from '../../../scene/setModel.ts';
import type { BoxOccluder, CylinderOccluder, Occluder, SheetOccluder } from './occluder.ts';

/** Screens, cutters and slatted walls as simple occluders; small things on the table throw no shadow to speak of. */
export function dressingOccluders(piece: DressingPiece, placement: RigidTransform, set: SetModel): Occluder[] {
  switch (piece.kind) {
    case 'windowCutter':
      return cutterSheets(piece, placement);
    case 'reedScreen':
      return reeds(piece.id, set);
    case 'slatScreen':
      return blindSlats(piece, placement);
    case 'slattedWall':
      return wallSlats(piece, placement);
    case 'sphere':
      return [
        {
          ...opaque(piece.id),
          kind: 'cylinder',
          // As wide as the ball on the mean of its height: same area in outline.
          footM: applyToPoint(placement, [0, 0, 0]),
          radiusM: (piece.diameterM * Math.PI) / 8,
          heightM: piece.diameterM,
        },
      ];
    case 'step':
      return Array.from({ length: piece.steps }, (_, i) =>
        boxAt(
          piece.id,
          placement,
          [0, ((i + 1) * piece.riserM) / 2, -(i + 0.5) * piece.treadM + (piece.steps * piece.treadM) / 2],
          [piece.widthM / 2, ((i + 1) * piece.riserM) / 2, piece.treadM / 2],
        ),
      );
    case 'book':
      return [
        boxAt(
          piece.id,
          placement,
          [0, piece.thicknessM / 2, 0],
          [piece.widthM / 2, piece.thicknessM / 2, piece.depthM / 2],
        ),
      ];
    default:
      return [];
  }
}

const opaque = (recordId: string) => ({ recordId, transmittance: 0 }) as const;

/** Rectangle in the piece's own frame, from one corner to the opposite one, both at depth z. */
function sheetAt(
  recordId: string,
  placement: RigidTransform,
  [x0, y0, z]: Vec3,
  [x1, y1]: readonly [number, number],
): SheetOccluder {
  return {
    ...opaque(recordId),
    kind: 'sheet',
    originM: applyToPoint(placement, [x0, y0, z]),
    edgeUM: applyToDirection(placement, [x1 - x0, 0, 0]),
    edgeVM: applyToDirection(placement, [0, y1 - y0, 0]),
  };
}

function boxAt(recordId: string, placement: RigidTransform, centre: Vec3, halfM: Vec3): BoxOccluder {
  return {
    ...opaque(recordId),
    kind: 'box',
    centreM: applyToPoint(placement, centre),
    halfM,
    across: applyToDirection(placement, [1, 0, 0]),
  };
}

/** Steps in which a round head is laid. */
const HEAD_STEPS = 6;

function cutterSheets(piece: DressingOf<'windowCutter'>, placement: RigidTransform): SheetOccluder[] {
  const { widthM, heightM, standM, openingWidthM, openingHeightM, columns, rows, barM } = piece;
  const low = standM + (piece.shape === 'window' ? (heightM - openingHeightM) / 2 : 0);
  const high = low + openingHeightM;
  const [w, a] = [widthM / 2, openingWidthM / 2];
  const at = (x0: number, y0: number, x1: number, y1: number, z = 0): SheetOccluder =>
    sheetAt(piece.id, placement, [x0, y0, z], [x1, y1]);
  const sheets = [
    at(-w, standM, -a, standM + heightM),
    at(a, standM, w, standM + heightM),
    at(-a, high, a, standM + heightM),
  ];
  if (low > standM) sheets.push(at(-a, standM, a, low));
  if (piece.head === 'round') {
    for (let i = 0; i < HEAD_STEPS; i++) {
      const [y0, y1] = [high - a + (i * a) / HEAD_STEPS, high - a + ((i + 1) * a) / HEAD_STEPS];
      const open = Math.sqrt(Math.max(0, a * a - ((y0 + y1) / 2 - (high - a)) ** 2));
      sheets.push(at(-a, y0, -open, y1), at(open, y0, a, y1));
    }
  }
  for (let i = 1; i < columns; i++) {
    const x = -a + (i * openingWidthM) / columns;
    sheets.push(at(x - barM / 2, low, x + barM / 2, high));
  }
  for (let j = 1; j < rows; j++) {
    const y = low + (j * openingHeightM) / rows;
    sheets.push(at(-a, y - barM / 2, a, y + barM / 2));
  }
  return sheets;
}

/** Each reed as it stands, from the exact set. */
function reeds(recordId: string, set: SetModel): CylinderOccluder[] {
  return set.surfaces.flatMap(({ recordId: of, shape, worldFromLocal }) => {
    if (of !== recordId || shape.type !== 'revolvedLine' || shape.r0M !== shape.r1M) return [];
    const footM = applyToPoint(worldFromLocal, [0, shape.y0M, 0]);
    const topM = applyToPoint(worldFromLocal, [0, shape.y1M, 0]);
    const heightM = topM[1] - footM[1];
    if (heightM <= 0) return [];
    const lean = [(topM[0] - footM[0]) / heightM, (topM[2] - footM[2]) / heightM] as const;
    return [{ ...opaque(recordId), kind: 'cylinder', footM, radiusM: shape.r0M, heightM, lean }];
  });
}

/** The slats of a blind with the chance that the set gives them. */
function blindSlats(piece: DressingOf<'slatScreen'>, placement: RigidTransform): SheetOccluder[] {
  const { widthM, heightM, slatWidthM, slatThicknessM, pitchM, frameM, unevenness } = piece;
  const isLevel = piece.direction === 'level';
  const acrossM = isLevel ? heightM : widthM;
  const alongM = (isLevel ? widthM : heightM) - 2 * frameM;
  const roomM = Math.max(slatThicknessM, slatWidthM * Math.abs(Math.cos(radFromDeg(piece.tiltDeg))));
  const count = Math.floor((acrossM - roomM) / pitchM + 1e-9) + 1;
  const random = createRandom(piece.seed);
  const slats: SheetOccluder[] = [];
  for (let i = 0; i < count; i++) {
    const uneven = (): number => (2 * random() - 1) * unevenness;
    const offset = ((count - 1) / -2 + i) * pitchM + 0.15 * pitchM * uneven();
    const tiltRad = radFromDeg(piece.tiltDeg + 14 * uneven());
    const droop = 0.006 * uneven();
    if (random() < piece.missingShare) continue;
    const place = (along: number, y: number): Vec3 => {
      const across = offset + Math.cos(tiltRad) * y + droop * along;
      const out = Math.sin(tiltRad) * y;
      return applyToPoint(placement, isLevel ? [along, heightM / 2 + across, out] : [across, heightM / 2 + along, out]);
    };
    const [o, u, v] = [
      place(-alongM / 2, -slatWidthM / 2),
      place(alongM / 2, -slatWidthM / 2),
      place(-alongM / 2, slatWidthM / 2),
    ];
    const from = (p: Vec3): Vec3 => [p[0] - o[0], p[1] - o[1], p[2] - o[2]];
    slats.push({ ...opaque(piece.id), kind: 'sheet', originM: o, edgeUM: from(u), edgeVM: from(v) });
  }
  return slats;
}

/** Slats on a wall shade the wall that they are part of. */
function wallSlats(piece: DressingOf<'slattedWall'>, placement: RigidTransform): BoxOccluder[] {
  const { widthM, heightM, pitchM, slatWidthM, slatDepthM } = piece;
  const isUpright = piece.direction === 'upright';
  const acrossM = isUpright ? widthM : heightM;
  const count = Math.floor((acrossM - slatWidthM) / pitchM + 1e-9) + 1;
  const marginM = (acrossM - slatWidthM - (count - 1) * pitchM) / 2;
  return Array.from({ length: count }, (_, i) => {
    const offset = -acrossM / 2 + marginM + slatWidthM / 2 + i * pitchM;
    const [centre, half]: [Vec3, Vec3] = isUpright
      ? [
          [offset, heightM / 2, slatDepthM / 2],
          [slatWidthM / 2, heightM / 2, slatDepthM / 2],
        ]
      : [
          [0, heightM / 2 + offset, slatDepthM / 2],
          [widthM / 2, slatWidthM / 2, slatDepthM / 2],
        ];
    return { ...boxAt(piece.id, placement, centre, half), shadesItself: true };
  });
}
