import { Billboard } from '@react-three/drei';
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, DoubleSide } from 'three';
import type { Vec3 } from '../../core/vec3.ts';
import { useFindings, useSession } from '../session/index.ts';
import { ACCENT, StageLine } from './StageLine.tsx';

const RING_M = 0.006;

/** The paths that prove the active finding, with a ring where each one turns. */
export function FindingRays() {
  const activeFindingId = useSession((state) => state.activeFindingId);
  const finding = useFindings().find(({ id }) => id === activeFindingId);
  const { raysM = [], pointM } = finding?.where ?? {};
  // Where there are no rays, the one point that it is about.
  const rays = raysM.length > 0 ? raysM : pointM ? [[pointM]] : [];
  return (
    <>
      {finding?.check === 'familyOfAngles' && raysM.length > 2 && <FamilyBody rays={raysM} />}
      {rays.map((ray, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: rays have no names
        <group key={i}>
          {ray.length > 1 && <StageLine points={ray} colour={ACCENT} widthPx={1.4} opacity={0.85} onTop />}
          {(ray.length > 1 ? ray.slice(1, -1) : ray).map((turn) => (
            <Billboard key={turn.join(' ')} position={[turn[0], turn[1], turn[2]]}>
              <mesh renderOrder={6} raycast={() => null}>
                <ringGeometry args={[RING_M * 0.72, RING_M, 32]} />
                <meshBasicMaterial color={ACCENT} depthTest={false} transparent />
              </mesh>
            </Billboard>
          ))}
        </group>
      ))}
    </>
  );
}

/** The region that a surface mirrors to the lens: the sides between its corner rays. */
function FamilyBody({ rays }: { readonly rays: readonly (readonly Vec3[])[] }) {
  const geometry = useMemo(() => {
    const corners = rays.flatMap((ray) => [ray[1], ray[2]]).filter((p) => p !== undefined);
    const made = new BufferGeometry();
    made.setAttribute('position', new BufferAttribute(new Float32Array(corners.flat()), 3));
    const count = corners.length / 2;
    const indices: number[] = [];
    for (let i = 0; i < count; i++) {
      const next = (i + 1) % count;
      indices.push(2 * i, 2 * next, 2 * i + 1, 2 * next, 2 * next + 1, 2 * i + 1);
    }
    made.setIndex(indices);
    return made;
  }, [rays]);
  useEffect(() => () => geometry.dispose(), [geometry]);
  return (
    <mesh geometry={geometry} raycast={() => null} renderOrder={4}>
      <meshBasicMaterial color={ACCENT} transparent opacity={0.06} depthWrite={false} side={DoubleSide} />
    </mesh>
  );
}
