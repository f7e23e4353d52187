import { addScaled, type Vec3 } from '../../core/vec3.ts';
import { CAMERA_ID, useCameraView, useSession } from '../session/index.ts';
import { ACCENT, PAPER, StageLine } from './StageLine.tsx';

const CORNERS = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;

/** The edges of the camera's field up to the plane of focus, and its frame there. */
export function CameraSight() {
  const view = useCameraView();
  const selected = useSession((state) => state.selectedId === CAMERA_ID);
  const colour = selected ? ACCENT : PAPER;
  const opacity = selected ? 0.6 : 0.16;
  const corners = CORNERS.map(([a, b]): Vec3 => {
    const centre = addScaled(view.originM, view.forward, view.focusDistanceM);
    const across = addScaled(centre, view.right, a * view.tanHalfWidth * view.focusDistanceM);
    return addScaled(across, view.up, b * view.tanHalfHeight * view.focusDistanceM);
  });
  return (
    <>
      <StageLine points={[...corners, corners[0]]} colour={colour} opacity={opacity} />
      {corners.map((corner, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: four corners, always in this order
        <StageLine key={i} points={[view.originM, corner]} colour={colour} opacity={opacity * 0.75} />
      ))}
    </>
  );
}
