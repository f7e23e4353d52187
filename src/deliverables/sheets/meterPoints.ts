import type { CheckInput } from '../../analysis/contracts.ts';
import { findBackground } from '../../analysis/places/backgroundPlace.ts';
import { findHeroPlace } from '../../analysis/places/heroPlace.ts';
import { rayThrough } from '../../camera/projection.ts';
import { normalize, type Vec3 } from '../../core/vec3.ts';
import type { Hit } from '../../transport/contracts.ts';
import { isBackdrop } from '../pieceRoles.ts';

/** A place on a surface that the meter is held against. */
export interface SurfacePlace {
  readonly id: string;
  readonly name: string;
  readonly pointM: Vec3;
  /** Unit, toward the side that is seen. */
  readonly normal: Vec3;
}

/** How far beside the hero the base is read, in widths of the hero. */
const BASE_WIDTHS = 1.5;
/** Upright enough for a backdrop: leans less than 45 degrees. */
const UPRIGHT = Math.SQRT1_2;
const ROWS = ['upper', 'middle', 'lower'] as const;
const COLUMNS = ['left', 'centre', 'right'] as const;

/** Left, right and front of the hero, on whatever lies there. */
export function findBasePoints({ scene, set, query, view }: CheckInput): SurfacePlace[] {
  const bounds = set.boundsByRecord.get(scene.subject.pieceId);
  if (!bounds) return [];
  const { minM, maxM } = bounds;
  const offsetM = BASE_WIDTHS * Math.max(maxM[0] - minM[0], maxM[2] - minM[2]);
  const [x, z] = [(minM[0] + maxM[0]) / 2, (minM[2] + maxM[2]) / 2];
  const right = normalize([view.right[0], 0, view.right[2]]);
  // Level, from the subject toward the camera.
  const front: Vec3 = [-right[2], 0, right[0]];
  const places = [
    { id: 'left', name: 'left of the subject', toward: [-right[0], 0, -right[2]] as const },
    { id: 'right', name: 'right of the subject', toward: right },
    { id: 'front', name: 'in front of the subject', toward: front },
  ];
  return places.flatMap(({ id, name, toward }): SurfacePlace[] => {
    const from: Vec3 = [x + toward[0] * offsetM, minM[1] + 0.02, z + toward[2] * offsetM];
    const hit = query
      .hitsAlong(from, [0, -1, 0], 0.5)
      .find((h) => isPiece(scene, set.surfaces[h.surfaceIndex].recordId));
    return hit ? [{ id, name, pointM: hit.pointM, normal: [0, 1, 0] }] : [];
  });
}

const isPiece = (scene: CheckInput['scene'], recordId: string): boolean =>
  scene.pieces.some(({ id, kind }) => id === recordId && kind !== 'glass') || recordId === 'turntable';

/**
 * A grid of three by three over the part of the frame that the background of the checks fills, as far as it is an upright
 * backdrop (wall or sweep); each place found by
 * the camera's own ray past glass, lights and grip. Empty when no backdrop shows.
 */
export function findBackdropPoints(input: CheckInput): SurfacePlace[] {
  const place = findBackground(input, findHeroPlace(input));
  const seen = (place?.cells ?? []).filter(({ u, v }) => backdropAt(input, u, v));
  if (seen.length === 0) return [];
  const [u0, u1] = span(seen.map(({ u }) => u));
  const [v0, v1] = span(seen.map(({ v }) => v));
  return ROWS.flatMap((rowName, row) =>
    COLUMNS.flatMap((columnName, column): SurfacePlace[] => {
      const found = backdropAt(input, u0 + ((u1 - u0) * (column + 0.5)) / 3, v0 + ((v1 - v0) * (row + 0.5)) / 3);
      if (!found) return [];
      const id = `${rowName}-${columnName}`;
      return [{ id, name: `${rowName} ${columnName}`, ...found }];
    }),
  );
}

function backdropAt({ scene, set, query, view }: CheckInput, u: number, v: number) {
  const { originM, direction } = rayThrough(view, u, v);
  const solid = (hit: Hit): boolean => {
    const recordId = set.surfaces[hit.surfaceIndex].recordId;
    return isPiece(scene, recordId);
  };
  const hit = query.hitsAlong(originM, direction).find(solid);
  if (!hit) return null;
  const piece = scene.pieces.find(({ id }) => id === set.surfaces[hit.surfaceIndex].recordId);
  if (!piece || !isBackdrop(piece)) return null;
  if (Math.abs(hit.normal[1]) > UPRIGHT) return null;
  const sign = hit.front ? 1 : -1;
  const normal: Vec3 = [hit.normal[0] * sign, hit.normal[1] * sign, hit.normal[2] * sign];
  return { pointM: hit.pointM, normal };
}

const span = (values: readonly number[]): [number, number] => [Math.min(...values), Math.max(...values)];
