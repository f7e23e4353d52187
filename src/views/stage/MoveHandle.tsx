import { Billboard } from '@react-three/drei';
import type { ThreeEvent } from '@react-three/fiber';
import { placementOf } from '../drawing/placement.ts';
import { CAMERA_ID, useFrameScene, useSession, useSetModel } from '../session/index.ts';
import { ACCENT, StageLine } from './StageLine.tsx';
import { takeHold } from './stageHand.ts';
import { useStageEye } from './useStageEye.ts';

const FLOOR_RING_M = 0.022;
/** The grip for height stands this far over the thing. */
const OVER_M = 0.09;
const GRIP_M = { across: 0.02, bar: 0.0035, hold: 0.05 };

/**
 * A plumb line from the selected thing to the table and a bar over it to raise and lower it by. Over
 * the floor it is moved by its own body.
 */
export function MoveHandle() {
  const scene = useFrameScene();
  const { boundsByRecord } = useSetModel();
  const selectedId = useSession((state) => state.selectedId);
  const eye = useStageEye();
  const placement = selectedId === null ? null : placementOf(scene, selectedId);
  if (selectedId === null || !placement) return null;
  const [x, y, z] = placement.positionM;
  const topM = selectedId === CAMERA_ID ? y + 0.05 : (boundsByRecord.get(selectedId)?.maxM[1] ?? y);
  const gripM = topM + OVER_M;
  const onPointerDown = (event: ThreeEvent<PointerEvent>) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    takeHold(eye(), selectedId, 'height', event.nativeEvent);
  };
  return (
    <>
      <StageLine
        points={[
          [x, 0, z],
          [x, gripM - GRIP_M.bar, z],
        ]}
        colour={ACCENT}
        opacity={0.75}
        onTop
      />
      <mesh position={[x, 0.0005, z]} rotation={[-Math.PI / 2, 0, 0]} raycast={() => null} renderOrder={5}>
        <ringGeometry args={[FLOOR_RING_M * 0.9, FLOOR_RING_M, 48]} />
        <meshBasicMaterial color={ACCENT} depthTest={false} transparent opacity={0.75} />
      </mesh>
      <Billboard position={[x, gripM, z]} lockX lockZ>
        <mesh raycast={() => null} renderOrder={6}>
          <planeGeometry args={[GRIP_M.across * 2, GRIP_M.bar * 2]} />
          <meshBasicMaterial color={ACCENT} depthTest={false} transparent />
        </mesh>
        {/* biome-ignore lint/a11y/noStaticElementInteractions: no HTML element; arrow keys do the same */}
        <mesh onPointerDown={onPointerDown} onClick={(event) => event.stopPropagation()} visible={false}>
          <planeGeometry args={[GRIP_M.hold * 2, GRIP_M.hold]} />
        </mesh>
      </Billboard>
    </>
  );
}
