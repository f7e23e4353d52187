import { add, addScaled, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { buildFixture } from '../../fixtures/buildFixture.ts';
import { buildGrip } from '../../fixtures/buildGrip.ts';
import type { GripItem } from '../../fixtures/records.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { changeInput } from '../checkInput.ts';
import type { CollectionName, RecordChange, Remedy } from '../contracts.ts';
import { familyOfMirror, polygonInFamily } from '../family/familyOfAngles.ts';
import { createFrameLight } from '../light/frameLight.ts';
import { REFLECTION_SEEN_STOPS, REFLECTION_VISIBLE_SHARE } from '../limits.ts';
import { facePolygon } from '../specular/facePolygons.ts';
import { gridSize } from '../specular/frameGrid.ts';
import { polygonShareOfFrame } from '../specular/mirrorImageShare.ts';
import { planarMirrors } from '../specular/planarMirrors.ts';
import { createSpecularTree } from '../specular/specularTree.ts';
import { createSurfaceTable } from '../specular/surfaceTable.ts';
import { traceFrameGrid } from '../specular/traceFrameGrid.ts';
import type { FrameStudy } from '../study.ts';
import { applyChanges } from './applyChanges.ts';
import { movesOf } from './moves.ts';

/** Moves are offered in steps that a stand can be set to. */
const STEP_M = 0.05;
const LONGEST_MOVE_M = 3;
const LOWEST_M = 0.1;
const MAX_REMEDIES = 3;
const MAX_TRIES = 5;
/** A rough mirror spreads an image by about this many times its alpha, radians; what is left beyond is faint. */
const BLUR_PER_ROUGHNESS = 3;
const TRY_GRID_CELLS = 8100;

/**
 * The smallest moves of a light or card, its aim kept, that take its mirror image in a flat record out of the frame.
 *
 * Each direction is searched until the face's outline has left the mirror's family of angles; what is found is then tried
 * out by tracing the frame again on the changed set, and dropped when the image is still seen, or when the light has come into the frame.
 *
 * @returns up to three, smallest move first; none when the mirror is curved or no move of up to 3 m clears it
 */
export function solveClearReflection(study: FrameStudy, sourceId: string, mirrorId: string): Remedy[] {
  const { scene, view } = study.input;
  const fixture = scene.fixtures.find((record) => record.id === sourceId);
  const item = scene.grip.find((record) => record.id === sourceId);
  const record = fixture ?? item;
  if (!record) return [];
  const collection: CollectionName = fixture ? 'fixtures' : 'grip';
  const families = planarMirrors(study.input)
    .filter((mirror) => mirror.recordId === mirrorId)
    .map((mirror) => familyOfMirror(view, mirror))
    .filter((family) => family !== null);
  const surfacesAt = (positionM: Vec3): OpticalSurface[] =>
    fixture ? shining(buildFixture({ ...fixture, positionM: [...positionM] })) : item ? sheets(item, positionM) : [];
  const twoSided = !fixture;
  const isMirrored = (surfaces: readonly OpticalSurface[]): boolean =>
    families.some((family) => {
      const blur = BLUR_PER_ROUGHNESS * study.table.roughness[family.surfaceIndex];
      return surfaces.some((surface) => {
        const cornersM = widen(facePolygon(surface, family.apexM, twoSided), family.apexM, blur);
        return cornersM.length > 2 && polygonInFamily(family, cornersM).length > 2;
      });
    });
  const frameShare = (surfaces: readonly OpticalSurface[]): number =>
    surfaces.reduce(
      (share, surface) => share + polygonShareOfFrame(view, facePolygon(surface, view.originM, twoSided)),
      0,
    );
  if (!isMirrored(surfacesAt(record.positionM))) return [];
  const shareInFrame = frameShare(surfacesAt(record.positionM));

  const found = movesOf(record, view.right).flatMap((move) => {
    for (let k = 1; k * STEP_M <= LONGEST_MOVE_M + 1e-9; k++) {
      const distanceM = k * STEP_M;
      const positionM = add(record.positionM, scale(move.direction, distanceM));
      if (positionM[1] < LOWEST_M && move.direction[1] < 0) return [];
      const surfaces = surfacesAt(positionM);
      if (isMirrored(surfaces)) continue;
      return frameShare(surfaces) > shareInFrame ? [] : [{ move, distanceM, positionM }];
    }
    return [];
  });
  found.sort((a, b) => a.distanceM - b.distanceM);

  const remedies: Remedy[] = [];
  for (const { move, distanceM, positionM } of found.slice(0, MAX_TRIES)) {
    if (remedies.length >= MAX_REMEDIES) break;
    const patch = { positionM: positionM.map((v) => Math.round(v * 1e4) / 1e4) };
    const changes: RecordChange[] = [{ op: 'update', collection, id: sourceId, patch }];
    if (!isCleared(study, changes, sourceId, mirrorId)) continue;
    remedies.push({ label: `${move.verb.replace('NAME', record.name)} ${distanceM.toFixed(2)} m`, changes });
  }
  return remedies;
}

/** Traces the changed frame where it meets the mirror first, and asks whether the plain image is gone. */
function isCleared(study: FrameStudy, changes: readonly RecordChange[], sourceId: string, mirrorId: string): boolean {
  const input = changeInput(study.input, applyChanges(study.input.scene, changes));
  // Only the light in question matters here.
  const own = input.set.layerFixtureIds.indexOf(sourceId);
  input.layerGains.forEach((_, k) => {
    if (Math.floor(k / 3) !== own) input.layerGains[k] = 0;
  });
  const table = createSurfaceTable(input);
  const mirrorRecord = table.recordIds.indexOf(mirrorId);
  const sourceRecord = table.recordIds.indexOf(sourceId);
  const { columns, rows } = gridSize(input.view, TRY_GRID_CELLS);
  // A card counts wherever it can be seen, so all scattered light is taken as bright.
  const everywhere = { out: Float64Array.of(1e9, 1e9, 1e9), find: () => null, holds: () => false, show: () => {} };
  const tree = createSpecularTree(createFrameLight(input), table, everywhere);
  const grid = traceFrameGrid({ view: input.view, tree, table }, columns, rows, (originM, direction) => {
    const hit = input.query.closestHit(originM, direction);
    return !hit || table.record[hit.surfaceIndex] !== mirrorRecord;
  });
  const leastNits = (2 ** REFLECTION_SEEN_STOPS - 1) * study.blackNits;
  let seen = 0;
  for (const group of grid.groups) {
    if (!group.direct || group.transmitted) continue;
    if (group.sourceRecord !== sourceRecord || group.firstRecord !== mirrorRecord) continue;
    for (const nits of group.nits) if (nits >= leastNits) seen++;
  }
  return seen / (columns * rows) < REFLECTION_VISIBLE_SHARE / 2;
}

/** The outline, each corner moved out from the middle by an angle as the eye sees it. */
function widen(cornersM: readonly Vec3[], eyeM: Vec3, angleRad: number): readonly Vec3[] {
  if (angleRad === 0 || cornersM.length === 0) return cornersM;
  const middleM = scale(
    cornersM.reduce<Vec3>((sum, corner) => add(sum, corner), [0, 0, 0]),
    1 / cornersM.length,
  );
  const stepM = angleRad * length(sub(middleM, eyeM));
  return cornersM.map((corner) => addScaled(corner, normalize(sub(corner, middleM)), stepM));
}

const shining = (surfaces: readonly OpticalSurface[]): OpticalSurface[] =>
  surfaces.filter((surface) => surface.emission);

const sheets = (item: GripItem, positionM: Vec3): OpticalSurface[] =>
  buildGrip({ ...item, positionM: [...positionM] }).filter((surface) => surface.finish.type !== 'black');
