import { Canvas, useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { developParams } from '../../camera/develop.ts';
import { isSoftwareRenderer } from '../resources/isSoftwareRenderer.ts';
import { quietThree } from '../resources/quietThree.ts';
import { useCameraView, useFrameScene, useLayerGains, useSession, useSetModel } from '../session/index.ts';
import { HARDWARE_QUALITY, QuickPicture, SOFTWARE_QUALITY } from './QuickPicture.ts';
import { useShown } from './useShown.ts';

quietThree();

/** The picture while things move: exactly the camera's view, at once, with light close to the traced picture's. */
export function QuickView() {
  return (
    <Canvas
      frameloop="demand"
      dpr={1}
      flat
      gl={{ antialias: false, alpha: false, depth: false, stencil: false }}
      style={{ pointerEvents: 'none' }}
      data-testid="quick"
    >
      <Picture />
    </Canvas>
  );
}

function Picture() {
  const scene = useFrameScene();
  const set = useSetModel();
  const view = useCameraView();
  const layerGains = useLayerGains();
  const mode = useSession((state) => state.pictureMode);
  const held = useSession((state) => state.dragging);
  const params = useMemo(() => developParams(scene.camera), [scene.camera]);
  const renderer = useThree((state) => state.gl);
  const invalidate = useThree((state) => state.invalidate);
  const picture = useMemo(
    () => new QuickPicture(isSoftwareRenderer(renderer) ? SOFTWARE_QUALITY : HARDWARE_QUALITY),
    [renderer],
  );
  useEffect(() => () => picture.dispose(), [picture]);
  useEffect(() => {
    picture.update({ scene, set, view, layerGains, params, mode, held });
    invalidate();
  }, [picture, scene, set, view, layerGains, params, mode, held, invalidate]);
  // Under the traced picture nobody sees it.
  const shown = useShown(renderer.domElement, invalidate);
  // Priority 1 takes over from the default drawing of r3f.
  useFrame(({ gl }) => {
    if (shown.current) picture.render(gl);
  }, 1);
  return null;
}
