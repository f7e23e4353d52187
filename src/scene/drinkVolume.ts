import { applyToPoint, type RigidTransform } from '../core/rigid.ts';
import { buildGlassBody } from './glassware/buildGlassBody.ts';
import { fillGlassBody } from './glassware/drinkBody.ts';
import { piecesOf } from './glassware/glassBody.ts';
import { packIce } from './ice/packIce.ts';
import type { GlassPiece } from './pieces/glass.ts';
import { revolvedVolumeM3 } from './profile/index.ts';
import type { Ice, Piece } from './records.ts';

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
  const drink = piece.drink ? fillGlassBody(piece.id, body, piece.drink) : undefined;
  const ice = piece.ice && piece.ice.bevelM <= piece.ice.edgeM / 2 ? piece.ice : undefined;
  const cubes = ice ? packIce(body, ice, drink?.levelYM) : [];
  const iceMl = ice ? cubes.length * roundedCubeVolumeM3(ice) * ML_PER_M3 : 0;
  if (!drink) return { capacityMl, underSurfaceMl: 0, iceMl, iceUnderSurfaceMl: 0, drinkMl: 0 };
  const underSurfaceMl =
    (revolvedVolumeM3(drink.top.map((p) => p.piece)) - revolvedVolumeM3(piecesOf(drink.wet))) * ML_PER_M3;
  const iceUnderSurfaceMl = ice
    ? cubes.reduce((sum, cube) => sum + shareUnder(cube, ice, drink.levelYM), 0) * roundedCubeVolumeM3(ice) * ML_PER_M3
    : 0;
  return { capacityMl, underSurfaceMl, iceMl, iceUnderSurfaceMl, drinkMl: underSurfaceMl - iceUnderSurfaceMl };
}

/** Drink to pour so that it stands at its level round the ice; 0 for anything that holds none. */
export const drinkVolumeMl = (piece: Piece): number =>
  piece.kind === 'glass' ? (drinkFigures(piece)?.drinkMl ?? 0) : 0;

/** Core cube, six slabs, twelve quarter cylinders, eight eighths of a ball. */
export function roundedCubeVolumeM3({ edgeM, bevelM: b }: Ice): number {
  const core = edgeM - 2 * b;
  return core ** 3 + 6 * core ** 2 * b + 3 * Math.PI * core * b ** 2 + (4 / 3) * Math.PI * b ** 3;
}

/** Share of a rounded cube under a level, on a 24 x 24 x 24 grid of points: within half a percent of the cube. */
function shareUnder(cube: RigidTransform, { edgeM, bevelM }: Ice, levelYM: number): number {
  const half = edgeM / 2;
  const reachM = half * Math.sqrt(3);
  if (cube.translationM[1] + reachM <= levelYM) return 1;
  if (cube.translationM[1] - reachM >= levelYM) return 0;
  const core = half - bevelM;
  const n = 24;
  const at = (i: number): number => ((i + 0.5) / n - 0.5) * edgeM;
  const past = (v: number): number => Math.max(0, Math.abs(v) - core);
  let all = 0;
  let under = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      for (let k = 0; k < n; k++) {
        if (past(at(i)) ** 2 + past(at(j)) ** 2 + past(at(k)) ** 2 > bevelM ** 2) continue;
        all++;
        if (applyToPoint(cube, [at(i), at(j), at(k)])[1] <= levelYM) under++;
      }
    }
  }
  return under / all;
}
