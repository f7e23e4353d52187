import type { AzimuthRange } from '../../core/shape.ts';
import { radFromDeg } from '../../core/units.ts';
import type { GlassBody } from '../glassware/glassBody.ts';
import { type ProfilePiece, pointAlong, splitPieceAtHeight } from '../profile/index.ts';
import type { Condensation } from '../records.ts';
import { wettedBand } from './condensation.ts';

/** Frost that full mist looks like: drops too small to see apart turn light aside by some 25 degrees. Invented, by eye. */
const FULL_MIST_FROST = 0.7;

/** A stretch of the outer wall, whole or part of the way round, and whether mist lies on it. */
export interface WallStretch {
  readonly piece: ProfilePiece;
  readonly azimuth?: AzimuthRange;
  readonly misted: boolean;
}

/** Frost of the glass where mist lies on it: that of the mist, or its own where that is more. */
export const frostUnderMist = (frost: number, mist: number): number => Math.max(frost, FULL_MIST_FROST * mist);

/** One piece of the outer wall cut where mist begins and ends. The stretches share their ends exactly. */
export function stretchesOfWall(
  piece: ProfilePiece,
  condensation: Condensation,
  body: GlassBody,
  levelYM: number | undefined,
): WallStretch[] {
  const { lowYM, highYM } = wettedBand(condensation, body, levelYM);
  const { wiped } = condensation;
  const heights = [lowYM, highYM, ...(wiped ? [wiped.bottomM, wiped.topM] : [])];
  const pieces = heights.reduce<ProfilePiece[]>(
    (parts, yM) => parts.flatMap((part) => splitPieceAtHeight(part, yM)),
    [piece],
  );
  return pieces.flatMap((part): WallStretch[] => {
    const { yM } = pointAlong(part, 0.5);
    const misted = yM > lowYM && yM < highYM;
    if (!misted || !wiped || yM < wiped.bottomM || yM > wiped.topM) return [{ piece: part, misted }];
    if (wiped.spanDeg >= 360) return [{ piece: part, misted: false }];
    const startRad = radFromDeg(wiped.azimuthDeg - wiped.spanDeg / 2);
    const endRad = radFromDeg(wiped.azimuthDeg + wiped.spanDeg / 2);
    return [
      { piece: part, misted: false, azimuth: { startRad, endRad } },
      { piece: part, misted: true, azimuth: { startRad: endRad, endRad: startRad + 2 * Math.PI } },
    ];
  });
}
