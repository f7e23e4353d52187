import { OrbitControls } from '@react-three/drei';
import { Canvas } from '@react-three/fiber';
import { useMemo, useRef } from 'react';
import { quietThree } from '../resources/quietThree.ts';
import { selectRecord, useDocument, useFrameScene, useSession, useSetModel } from '../session/index.ts';
import { AimHandle } from './AimHandle.tsx';
import { BeamLines } from './BeamLines.tsx';
import { CameraSight } from './CameraSight.tsx';
import { FindingRays } from './FindingRays.tsx';
import { FloorGrid } from './FloorGrid.tsx';
import { MoveHandle } from './MoveHandle.tsx';
import { SetBodies } from './SetBodies.tsx';
import './stage.css';
import { STAGE_FOV_DEG, stageHome } from './stageHome.ts';
import { TagLayer, TagPlacer } from './TagLayer.tsx';
import { TapeInStage } from './TapeInStage.tsx';

quietThree();

/** Of the stage's place in the window. */
const USUAL_ASPECT = 1.4;

/** The set to walk round: drag to turn, wheel to come closer, click to select, drag what is selected to move it. */
export function Stage() {
  const scene = useFrameScene();
  const tagLayerRef = useRef<HTMLDivElement>(null);
  const set = useSetModel();
  const loadCount = useDocument((state) => state.loadCount);
  const frameId = useSession((state) => state.frameId);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another document starts from its own first look
  const home = useMemo(() => stageHome(scene, set, USUAL_ASPECT), [loadCount, frameId === '']);
  return (
    <div className="kg-stage" data-testid="stage">
      <Canvas
        key={loadCount}
        frameloop="demand"
        flat
        dpr={[1, 1.75]}
        gl={{ antialias: true, alpha: false, stencil: false }}
        camera={{ fov: STAGE_FOV_DEG, near: 0.02, far: 60, position: [...home.positionM] }}
        onPointerMissed={() => selectRecord(null)}
      >
        <color attach="background" args={['#141210']} />
        <OrbitControls
          makeDefault
          target={[...home.targetM]}
          enableDamping
          dampingFactor={0.12}
          minDistance={0.15}
          maxDistance={12}
          maxPolarAngle={Math.PI * 0.54}
        />
        <FloorGrid />
        <SetBodies />
        <BeamLines />
        <CameraSight />
        <FindingRays />
        <MoveHandle />
        <AimHandle />
        <TapeInStage />
        <TagPlacer layerRef={tagLayerRef} />
      </Canvas>
      <TagLayer layerRef={tagLayerRef} />
    </div>
  );
}
