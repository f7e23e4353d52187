import { compose, fromAxes, type RigidTransform, translation } from '../../../core/rigid.ts';
import { type Built, builtOf, leftOut } from '../../built.ts';
import { BOARD_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { cannotMake, inMm } from '../../problems.ts';
import {
  arcAbout,
  joinPieces,
  lineBetween,
  type ProfilePiece,
  profilePoint,
  roundCorner,
} from '../../profile/index.ts';
import { extrudeSides } from './extrude.ts';
import { createFaceMesh } from './faceMesh.ts';
import { roundedLoopSides } from './roundedLoop.ts';
import { boxSides, dressSides, type Side } from './side.ts';

export const MOST_SLATS = 400;

/** Cross-section of a slat: its back along r from 0, its front at `depthM`, both front edges rounded. */
function slatSection(widthM: number, depthM: number, radiusM: number): ProfilePiece[] {
  const half = widthM / 2;
  // Counter-clockwise with r to the right and y (toward the camera) up.
  const backLeft = profilePoint(-half, 0);
  const backRight = profilePoint(half, 0);
  const frontRight = profilePoint(half, depthM);
  const frontLeft = profilePoint(-half, depthM);
  const right = roundCorner(backRight, frontRight, frontLeft, radiusM);
  const left = roundCorner(frontRight, frontLeft, backLeft, radiusM);
  return joinPieces([
    lineBetween(backLeft, backRight),
    lineBetween(backRight, right.from),
    right,
    lineBetween(right.to, left.from),
    left,
    lineBetween(left.to, backLeft),
  ]);
}

/** Panel with slats a hair before it. Slats stand evenly, as many as fit, the same margin left at both ends. */
export function buildSlattedWall(piece: DressingOf<'slattedWall'>, placement: RigidTransform): Built {
  const { widthM, heightM, thicknessM, pitchM, slatWidthM, slatDepthM, edgeRadiusM } = piece;
  const upright = piece.direction === 'upright';
  const [acrossM, alongM] = upright ? [widthM, heightM - BOARD_LIFT_M] : [heightM - BOARD_LIFT_M, widthM];
  const problem = (code: string, field: string, value: number, message: string): Built =>
    leftOut([cannotMake(piece.id, code, field, value, message)]);
  if (slatWidthM > Math.min(pitchM, acrossM)) {
    return problem(
      'slat-wider-than-pitch',
      'slatWidthM',
      slatWidthM,
      `slatWidthM is more than pitchM or the wall: keep it at ${inMm(Math.min(pitchM, acrossM))} or less.`,
    );
  }
  const most = Math.min(slatWidthM / 2, slatDepthM);
  if (edgeRadiusM > most) {
    return problem(
      'edge-rounding-too-large',
      'edgeRadiusM',
      edgeRadiusM,
      `edgeRadiusM is more than the slat allows: keep it at ${inMm(most)} or less.`,
    );
  }
  const count = Math.floor((acrossM - slatWidthM) / pitchM + 1e-9) + 1;
  if (count > MOST_SLATS) {
    return problem(
      'too-many-slats',
      'pitchM',
      pitchM,
      `${count} slats are more than can be made: make pitchM ${inMm(acrossM / MOST_SLATS)} or more.`,
    );
  }
  const panel = boxSides('', [-widthM / 2, BOARD_LIFT_M, -thicknessM], [widthM / 2, heightM, 0], placement);
  const first = -((count - 1) * pitchM) / 2;
  const at = (i: number): RigidTransform => {
    const offset = first + i * pitchM;
    // The section lies in local x and z; the slat runs along local y.
    if (upright) return translation([offset, BOARD_LIFT_M, BOARD_LIFT_M]);
    const middleY = BOARD_LIFT_M + acrossM / 2;
    return fromAxes([0, -1, 0], [1, 0, 0], [0, 0, 1], [-widthM / 2, middleY + offset, BOARD_LIFT_M]);
  };
  if (edgeRadiusM > 0) {
    // Between the centres of the two roundings, where the whole section is in sight.
    const middle = profilePoint(0, (slatDepthM - edgeRadiusM) / 2);
    const section = slatSection(slatWidthM, slatDepthM, edgeRadiusM);
    const slats = Array.from({ length: count }, (_, i) =>
      extrudeSides(`slat ${i + 1}`, section, middle, alongM, compose(placement, at(i))),
    );
    return builtOf(dressSides(piece.id, [...panel, ...slats.flat()], piece.finish));
  }
  const slats = createFaceMesh();
  for (let i = 0; i < count; i++) {
    const offset = first + i * pitchM;
    const half = slatWidthM / 2;
    const [x0, x1] = upright ? [offset - half, offset + half] : [-widthM / 2, widthM / 2];
    const middleY = BOARD_LIFT_M + acrossM / 2;
    const [y0, y1] = upright ? [BOARD_LIFT_M, heightM] : [middleY + offset - half, middleY + offset + half];
    slats.box([x0, y0, BOARD_LIFT_M], [x1, y1, BOARD_LIFT_M + slatDepthM]);
  }
  const all: Side[] = [...panel, { role: 'slats', shape: slats.build(), worldFromLocal: placement }];
  return builtOf(dressSides(piece.id, all, piece.finish));
}

/** Wall with panels framed by half-round beads with rounded corners, and a skirting board with a rounded top. */
export function buildMouldedWall(piece: DressingOf<'mouldedWall'>, placement: RigidTransform): Built {
  const { widthM, heightM, thicknessM, columns, rows, marginM, beadM, skirtingM } = piece;
  const lowYM = BOARD_LIFT_M + skirtingM;
  const cellXM = (widthM - marginM) / columns;
  const cellYM = (heightM - lowYM - marginM) / rows;
  const frameXM = cellXM - marginM;
  const frameYM = cellYM - marginM;
  if (Math.min(frameXM, frameYM) < 3 * beadM) {
    return leftOut([
      cannotMake(
        piece.id,
        'panels-too-small',
        'marginM',
        marginM,
        'The framed panels have no room: make marginM or beadM smaller, or columns and rows fewer.',
      ),
    ]);
  }
  const sides = boxSides('', [-widthM / 2, BOARD_LIFT_M, -thicknessM], [widthM / 2, heightM, 0], placement);
  const r = beadM / 2;
  // The bead's middle line turns about each corner with one bead's width.
  const bend = beadM;
  const middle = profilePoint(bend, BOARD_LIFT_M);
  const bead = [
    { role: 'bead', piece: arcAbout(middle, r, 0, Math.PI) },
    {
      role: 'bead back',
      piece: lineBetween(profilePoint(bend - r, BOARD_LIFT_M), profilePoint(bend + r, BOARD_LIFT_M)),
    },
  ];
  const core = { halfXM: frameXM / 2 - bend - r, halfZM: frameYM / 2 - bend - r };
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < rows; j++) {
      const x = -widthM / 2 + marginM + i * cellXM + frameXM / 2;
      const y = lowYM + marginM + j * cellYM + frameYM / 2;
      // Out of the wall is the loop's up.
      const frame = fromAxes([1, 0, 0], [0, 0, 1], [0, -1, 0], [x, y, 0]);
      sides.push(...roundedLoopSides(bead, core, compose(placement, frame)));
    }
  }
  if (skirtingM > 0) sides.push(...skirtingSides(piece, placement));
  return builtOf(dressSides(piece.id, sides, piece.finish));
}

const SKIRTING_DEPTH_M = 0.014;

function skirtingSides({ widthM, skirtingM }: DressingOf<'mouldedWall'>, placement: RigidTransform): Side[] {
  const depthM = Math.min(SKIRTING_DEPTH_M, skirtingM);
  const radiusM = depthM * 0.7;
  // Section: r is up, y toward the camera; drawn out along the wall.
  const low = profilePoint(0, depthM);
  const backLow = profilePoint(0, 0);
  const backHigh = profilePoint(skirtingM, 0);
  const high = profilePoint(skirtingM, depthM);
  const round = roundCorner(backHigh, high, low, radiusM);
  const section = joinPieces([
    lineBetween(backLow, backHigh),
    lineBetween(backHigh, round.from),
    round,
    lineBetween(round.to, low),
    lineBetween(low, backLow),
  ]);
  const frame = fromAxes([0, 1, 0], [-1, 0, 0], [0, 0, 1], [widthM / 2, BOARD_LIFT_M, BOARD_LIFT_M]);
  return extrudeSides('skirting', section, profilePoint(skirtingM / 2, depthM / 4), widthM, compose(placement, frame));
}
