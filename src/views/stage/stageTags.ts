import type { Vec3 } from '../../core/vec3.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import { formatM, placementOf } from '../drawing/placement.ts';
import { CAMERA_ID } from '../session/index.ts';

/** A few words that stand at a point of the set. */
export interface StageTag {
  readonly id: string;
  readonly text: string;
  readonly atM: Vec3;
  readonly emphasis: 'selected' | 'hovered' | 'figure' | 'plain';
}

const CAMERA_TOP_M = 0.06;
/** Clear of the bar that raises and lowers the selected thing. */
const OVER_HANDLE_M = 0.1;

/**
 * Names of lights, grip and the camera, and of a piece while it is selected or under the pointer; the height and
 * distance of what is being moved. The most important first: where two would overlap, the later one waits.
 */
export function stageTags(
  scene: FrameScene,
  set: SetModel,
  selectedId: string | null,
  hoveredId: string | null,
  dragging: boolean,
): StageTag[] {
  const over = (id: string, positionM: Vec3): Vec3 => {
    const bounds = set.boundsByRecord.get(id);
    if (!bounds || id === CAMERA_ID) return positionM;
    const { minM, maxM } = bounds;
    return [(minM[0] + maxM[0]) / 2, maxM[1], (minM[2] + maxM[2]) / 2];
  };
  const { camera } = scene;
  const shown = (id: string): boolean => id === selectedId || id === hoveredId;
  const [cx, cy, cz] = camera.positionM;
  const names = [
    ...scene.fixtures,
    {
      id: CAMERA_ID,
      name: `Camera ${Number(camera.focalLengthMm.toFixed(1))} mm`,
      positionM: [cx, cy + CAMERA_TOP_M, cz],
    },
    ...scene.grip,
    ...scene.pieces.filter(({ id }) => shown(id)),
  ] satisfies readonly { id: string; name: string; positionM: readonly number[] }[];
  const tags = names.map(({ id, name, positionM: [x, y, z] }): StageTag => {
    const emphasis = id === selectedId ? 'selected' : id === hoveredId ? 'hovered' : 'plain';
    const at = over(id, [x, y, z]);
    const atM: Vec3 = emphasis === 'selected' ? [at[0], at[1] + OVER_HANDLE_M, at[2]] : at;
    return { id, text: name, atM, emphasis };
  });
  const placement = dragging && selectedId !== null ? placementOf(scene, selectedId) : null;
  if (placement) {
    const [x, y, z] = placement.positionM;
    const text = `${formatM(y)} up, ${formatM(placement.horizontalDistanceM)} away`;
    tags.push({ id: 'figure', text, atM: [x, y / 2, z], emphasis: 'figure' });
  }
  const rank = { figure: 0, selected: 1, hovered: 2, plain: 3 };
  return tags.sort((a, b) => rank[a.emphasis] - rank[b.emphasis]);
}
