import { Billboard } from '@react-three/drei';
import type { ThreeEvent } from '@react-three/fiber';
import { holdRecord } from '../drawing/moveRecord.ts';
import { useFrameScene, useSession } from '../session/index.ts';
import { ACCENT } from './StageLine.tsx';
import { takeHold } from './stageHand.ts';
import { useStageEye } from './useStageEye.ts';

const RING_M = 0.011;
const HOLD_M = 0.026;

/** A small ring at the point that the selected light, sheet or camera looks at; it is dragged over the floor. */
export function AimHandle() {
  const scene = useFrameScene();
  const selectedId = useSession((state) => state.selectedId);
  const eye = useStageEye();
  const aimM = selectedId === null ? null : (holdRecord(scene, selectedId, 'aim')?.aimM ?? null);
  if (selectedId === null || !aimM) return null;
  const onPointerDown = (event: ThreeEvent<PointerEvent>) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    takeHold(eye(), selectedId, 'aim', event.nativeEvent);
  };
  return (
    <Billboard position={[aimM[0], aimM[1], aimM[2]]}>
      <mesh raycast={() => null} renderOrder={6}>
        <ringGeometry args={[RING_M * 0.8, RING_M, 40]} />
        <meshBasicMaterial color={ACCENT} depthTest={false} transparent />
      </mesh>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: no HTML element; the inspector sets the same point */}
      <mesh onPointerDown={onPointerDown} onClick={(event) => event.stopPropagation()} visible={false}>
        <circleGeometry args={[HOLD_M, 24]} />
      </mesh>
    </Billboard>
  );
}
