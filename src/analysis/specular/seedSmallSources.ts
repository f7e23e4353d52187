import { projectPoint } from '../../camera/projection.ts';
import type { FrameLight } from '../light/frameLight.ts';
import { type FrameGrid, type GridTracer, groupKey, probeGroup } from './frameGrid.ts';
import { mirrorPoint } from './mirrorImage.ts';
import type { PlanarMirror } from './planarMirrors.ts';
import type { Arrival } from './specularTree.ts';
import { newGroup } from './traceFrameGrid.ts';

/**
 * A bulb's mirror image may fall between the rays of the grid. Where a mirror shows the middle of an emitter and the
 * cell there holds nothing, the cell is given the luminance met on the way to the exact point.
 */
export function seedSmallSources(
  tracer: GridTracer,
  grid: FrameGrid,
  light: FrameLight,
  mirrors: readonly PlanarMirror[],
): void {
  const { view, table } = tracer;
  const groupAt = new Map(grid.groups.map((group) => [group.id, group]));
  const { groups } = grid;
  for (const mirror of mirrors) {
    for (const source of light.sources) {
      const { centreM, surfaceIndex } = source.emitter;
      const pointM = mirrorPoint(mirror, view.originM, centreM);
      const uv = pointM ? projectPoint(view, pointM) : null;
      if (!uv || uv.u < 0 || uv.u >= 1 || uv.v < 0 || uv.v >= 1) continue;
      const cell = Math.floor(uv.v * grid.rows) * grid.columns + Math.floor(uv.u * grid.columns);
      const arrival: Arrival = {
        sourceSurface: surfaceIndex,
        firstSurface: mirror.surfaceIndex,
        transmitted: false,
        mirrorSurface: mirror.surfaceIndex,
        events: 1,
        luminanceNits: 0,
      };
      const id = groupKey(table, arrival);
      const known = groupAt.get(id);
      if (known && known.nits[cell] > 0) continue;
      const probe = probeGroup(tracer, id, uv.u, uv.v);
      if (!(probe.groupNits > 0)) continue;
      const group = known ?? newGroup(table, id, arrival, grid.totalNits.length);
      if (!known) {
        groupAt.set(id, group);
        groups.push(group);
      }
      group.nits[cell] = probe.groupNits;
      grid.totalNits[cell] = Math.max(grid.totalNits[cell], probe.totalNits);
    }
  }
}
