import { add, scale } from '../../core/vec3.ts';
import { changeInput } from '../checkInput.ts';
import type { CollectionName, RecordChange, Remedy } from '../contracts.ts';
import { createFrameStudy } from '../frameStudy.ts';
import { type ArrivalGroup, gridSize } from '../specular/frameGrid.ts';
import { traceFrameGrid } from '../specular/traceFrameGrid.ts';
import type { FrameStudy } from '../study.ts';
import { applyChanges } from './applyChanges.ts';
import { movesOf } from './moves.ts';

/** Rays over the frame for a trial; only those that meet the glass first are followed. */
const CELLS = 3600;
const STEPS_M = [0.1, 0.2, 0.3, 0.5, 0.8];
const LOWEST_M = 0.1;
const MAX_REMEDIES = 2;
/** What is left of a highlight when it counts as gone. */
const LEFT_SHARE = 0.1;

/**
 * Moves of a light or card, aim kept, that take its highlight out of a glass. A curved glass has no one family of angles, so
 * each step of each direction is tried out by tracing the glass on the changed set; the smallest that leaves a tenth or less
 * of the light is offered.
 */
export function solveClearGlass(study: FrameStudy, group: ArrivalGroup): Remedy[] {
  const { scene, view } = study.input;
  const sourceId = study.table.recordIds[group.sourceRecord];
  const firstId = study.table.recordIds[group.firstRecord];
  const fixture = scene.fixtures.find(({ id }) => id === sourceId);
  const record = fixture ?? scene.grip.find(({ id }) => id === sourceId);
  if (!record) return [];
  const collection: CollectionName = fixture ? 'fixtures' : 'grip';
  const before = highlightSum(study, sourceId, firstId, group.transmitted);
  if (!(before > 0)) return [];
  const remedies: Remedy[] = [];
  for (const distanceM of STEPS_M) {
    for (const { verb, direction } of movesOf(record, view.right)) {
      if (remedies.length >= MAX_REMEDIES) return remedies;
      const positionM = add(record.positionM, scale(direction, distanceM));
      if (positionM[1] < LOWEST_M && direction[1] < 0) continue;
      const patch = { positionM: positionM.map((v) => Math.round(v * 1e4) / 1e4) };
      const changes: RecordChange[] = [{ op: 'update', collection, id: sourceId, patch }];
      const trial = createFrameStudy(changeInput(study.input, applyChanges(scene, changes)));
      if (highlightSum(trial, sourceId, firstId, group.transmitted) > LEFT_SHARE * before) continue;
      remedies.push({ label: `${verb.replace('NAME', record.name)} ${distanceM.toFixed(2)} m`, changes });
    }
  }
  return remedies;
}

/** All that a source adds to the frame by way of a glass, summed over its cells, cd/m2. */
function highlightSum(study: FrameStudy, sourceId: string, firstId: string, transmitted: boolean): number {
  const { input, table } = study;
  const { columns, rows } = gridSize(input.view, CELLS);
  const grid = traceFrameGrid(study.outlineTracer(), columns, rows, (originM, direction) => {
    const hit = input.query.closestHit(originM, direction);
    return !hit || table.recordIds[table.record[hit.surfaceIndex]] !== firstId;
  });
  return grid.groups
    .filter((group) => table.recordIds[group.sourceRecord] === sourceId && group.transmitted === transmitted)
    .reduce((sum, { nits }) => sum + nits.reduce((total, value) => total + value, 0), 0);
}
