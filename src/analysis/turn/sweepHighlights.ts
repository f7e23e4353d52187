import { projectPoint } from '../../camera/projection.ts';
import { add, type Vec3 } from '../../core/vec3.ts';
import { changeInput } from '../checkInput.ts';
import { createFrameStudy } from '../frameStudy.ts';
import { boxInFrame } from '../places/heroCells.ts';
import { gridSize } from '../specular/frameGrid.ts';
import { traceFrameGrid } from '../specular/traceFrameGrid.ts';
import type { FrameStudy } from '../study.ts';

/** What the subject shows at one angle of the table. */
export interface TurnStep {
  /** From where the table stands in the frame, degrees. */
  readonly turnDeg: number;
  /** Part of the frame in which it clips. */
  readonly clippedShare: number;
  /** Middle of its brightest part; null when it is not seen. */
  readonly highlight: { readonly u: number; readonly v: number } | null;
  /** Brightest part of the label over its median, stops; null without a label in view. */
  readonly labelStops: number | null;
}

const STEPS = 8;
/** Rays over the whole frame, of which only those over the subject are traced. */
const CELLS = 3600;
/** Brightest part that counts as the highlight. */
const BRIGHT_SHARE = 0.03;
const LEAST_LABEL_CELLS = 6;

/** Follows the frame through one turn of the table in coarse steps, the subject alone. */
export function sweepHighlights(study: FrameStudy): TurnStep[] {
  const { scene } = study.input;
  return Array.from({ length: STEPS }, (_, k) => {
    const turnDeg = (360 * k) / STEPS;
    const turned = { ...scene, turntableAngleDeg: scene.turntableAngleDeg + turnDeg };
    return lookAt(k === 0 ? study : createFrameStudy(changeInput(study.input, turned)), turnDeg);
  });
}

function lookAt(study: FrameStudy, turnDeg: number): TurnStep {
  const { input, table } = study;
  const heroId = input.scene.subject.pieceId;
  const bounds = input.set.boundsByRecord.get(heroId);
  const box = bounds ? boxInFrame(input, bounds) : null;
  const { columns, rows } = gridSize(input.view, CELLS);
  const grid = traceFrameGrid(study.tracer(), columns, rows, (originM, direction) => {
    if (!isInside(originM, direction)) return true;
    const hit = input.query.closestHit(originM, direction);
    return !hit || table.recordIds[table.record[hit.surfaceIndex]] !== heroId;
  });
  const cells: number[] = [];
  const label: number[] = [];
  grid.firstSurface.forEach((surface, cell) => {
    if (surface < 0 || grid.totalNits[cell] === 0) return;
    cells.push(cell);
    if (input.set.surfaces[surface].role.includes('label')) label.push(grid.totalNits[cell]);
  });
  const clipped = cells.filter((cell) => grid.totalNits[cell] >= study.clippingNits).length;
  const brightest = [...cells]
    .sort((a, b) => grid.totalNits[b] - grid.totalNits[a])
    .slice(0, Math.max(1, Math.round(cells.length * BRIGHT_SHARE)));
  const mean = (of: (cell: number) => number): number =>
    brightest.reduce((sum, cell) => sum + of(cell), 0) / brightest.length;
  return {
    turnDeg,
    clippedShare: clipped / grid.totalNits.length,
    highlight:
      brightest.length > 0
        ? {
            u: mean((cell) => ((cell % columns) + 0.5) / columns),
            v: mean((cell) => (Math.floor(cell / columns) + 0.5) / rows),
          }
        : null,
    labelStops: labelStops(label),
  };

  function isInside(originM: Vec3, direction: Vec3): boolean {
    const at = projectPoint(input.view, add(originM, direction));
    return at !== null && box !== null && at.u >= box.u0 && at.u <= box.u1 && at.v >= box.v0 && at.v <= box.v1;
  }
}

function labelStops(nits: readonly number[]): number | null {
  if (nits.length < LEAST_LABEL_CELLS) return null;
  const sorted = [...nits].sort((a, b) => a - b);
  const median = sorted[sorted.length >> 1];
  return median > 0 ? Math.log2(sorted[sorted.length - 1] / median) : null;
}
