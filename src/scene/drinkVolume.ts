import { fillVessel, iceVolumeM3, sunkenIceM3 } from './drink/fillVessel.ts';
import { standingOfGarnish } from './garnish/standing.ts';
import { buildGlassBody } from './glassware/buildGlassBody.ts';
import { underSurfaceM3 } from './glassware/drinkBody.ts';
import { piecesOf } from './glassware/glassBody.ts';
import { roundedBoxVolumeM3 } from './ice/iceBody.ts';
import type { GlassPiece } from './pieces/glass.ts';
import { revolvedVolumeM3 } from './profile/index.ts';
import type { Piece } from './records.ts';

const ML_PER_M3 = 1e6;

export interface DrinkFigures {
  /** Inside of the glass up to where the rim begins to round over. */
  readonly capacityMl: number;
  /** All that lies under the surface of the drink: drink and sunken ice. */
  readonly underSurfaceMl: number;
  /** All the ice, and the part of it under the surface. */
  readonly iceMl: number;
  readonly iceUnderSurfaceMl: number;
  /** What is poured. */
  readonly drinkMl: number;
}

/** Volumes of one glass in closed form (ice that crosses the surface by fine sampling), or undefined if it can't be made. */
export function drinkFigures(piece: GlassPiece): DrinkFigures | undefined {
  const result = buildGlassBody(piece.id, piece.profile);
  if (!result.ok) return undefined;
  const body = result.value;
  const capacityMl = -revolvedVolumeM3(piecesOf(body.inside)) * ML_PER_M3;
  const { drink, ice } = fillVessel(piece.id, body, piece, standingOfGarnish(body, piece.garnish));
  const iceMl = iceVolumeM3(ice) * ML_PER_M3;
  if (!drink) return { capacityMl, underSurfaceMl: 0, iceMl, iceUnderSurfaceMl: 0, drinkMl: 0 };
  const underSurfaceMl = underSurfaceM3(drink) * ML_PER_M3;
  const iceUnderSurfaceMl = sunkenIceM3(ice, drink.levelYM) * ML_PER_M3;
  return { capacityMl, underSurfaceMl, iceMl, iceUnderSurfaceMl, drinkMl: underSurfaceMl - iceUnderSurfaceMl };
}

/** Drink to pour so that it stands at its level round the ice; 0 for anything that holds none. */
export const drinkVolumeMl = (piece: Piece): number =>
  piece.kind === 'glass' ? (drinkFigures(piece)?.drinkMl ?? 0) : 0;

/** Volume of a cube with rounded edges. */
export const roundedCubeVolumeM3 = ({ edgeM, bevelM }: { readonly edgeM: number; readonly bevelM: number }): number =>
  roundedBoxVolumeM3([edgeM / 2, edgeM / 2, edgeM / 2], bevelM);
