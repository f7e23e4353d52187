import { add, cross, dot, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';

/** Where the stage is first looked at from: over the camera's right shoulder, all lights in view. */
export interface StageHome {
  readonly positionM: Vec3;
  readonly targetM: Vec3;
}

export const STAGE_FOV_DEG = 32;

/** From the middle of things toward the eye. */
const DIRECTION: Vec3 = normalize([0.78, 0.5, 1]);
/** Share of the window that things fill, at most. */
const FILL = 0.86;
const CAMERA_BODY_M = 0.2;

/**
 * Looks along one fixed direction from as near as the lights, the grip, the camera and the hero stay in view; tables and
 * backdrops may run out of it.
 *
 * @param aspect width over height of the window
 */
export function stageHome(scene: FrameScene, set: SetModel, aspect: number): StageHome {
  const points = pointsToShow(scene, set);
  const right = normalize(cross([0, 1, 0], DIRECTION));
  const up = cross(DIRECTION, right);
  const middle = (axis: Vec3): number => {
    const values = points.map((p) => dot(p, axis));
    return (Math.min(...values) + Math.max(...values)) / 2;
  };
  const targetM = add(add(scale(right, middle(right)), scale(up, middle(up))), scale(DIRECTION, middle(DIRECTION)));
  const tanV = Math.tan((STAGE_FOV_DEG * Math.PI) / 360) * FILL;
  const tanH = tanV * aspect;
  // Each point must lie inside the pyramid: |across| <= tan x (distance - toward the eye).
  const distanceM = Math.max(
    ...points.map((p) => {
      const d = sub(p, targetM);
      const across = Math.max(Math.abs(dot(d, right)) / tanH, Math.abs(dot(d, up)) / tanV);
      return across + dot(d, DIRECTION);
    }),
  );
  return { positionM: add(targetM, scale(DIRECTION, distanceM)), targetM };
}

function pointsToShow(scene: FrameScene, set: SetModel): Vec3[] {
  const shown = [...scene.fixtures, ...scene.grip].map(({ id }) => id);
  const corners = [...shown, scene.subject.pieceId].flatMap((id) => {
    const bounds = set.boundsByRecord.get(id);
    if (!bounds) return [];
    const { minM, maxM } = bounds;
    return [0, 1, 2, 3, 4, 5, 6, 7].map(
      (i): Vec3 => [(i & 1 ? maxM : minM)[0], (i & 2 ? maxM : minM)[1], (i & 4 ? maxM : minM)[2]],
    );
  });
  const [x, y, z] = scene.camera.positionM;
  return [
    ...corners,
    scene.subject.meterPointM,
    [x - CAMERA_BODY_M, y - CAMERA_BODY_M / 2, z + CAMERA_BODY_M],
    [x + CAMERA_BODY_M, y + CAMERA_BODY_M / 2, z + CAMERA_BODY_M],
  ];
}
