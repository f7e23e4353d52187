import { Billboard } from '@react-three/drei';
import { useFindings, useSession } from '../session/index.ts';
import { ACCENT, StageLine } from './StageLine.tsx';

const RING_M = 0.006;

/** The paths that prove the active finding, with a ring where each one turns. */
export function FindingRays() {
  const activeFindingId = useSession((state) => state.activeFindingId);
  const finding = useFindings().find(({ id }) => id === activeFindingId);
  const rays = finding?.where.raysM ?? [];
  return rays.map((ray, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: rays have no names
    <group key={i}>
      <StageLine points={ray} colour={ACCENT} widthPx={1.4} opacity={0.85} onTop />
      {ray.slice(1, -1).map((turn) => (
        <Billboard key={turn.join(' ')} position={[turn[0], turn[1], turn[2]]}>
          <mesh renderOrder={6} raycast={() => null}>
            <ringGeometry args={[RING_M * 0.72, RING_M, 32]} />
            <meshBasicMaterial color={ACCENT} depthTest={false} transparent />
          </mesh>
        </Billboard>
      ))}
    </group>
  ));
}
