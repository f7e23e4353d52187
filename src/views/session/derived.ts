import { layerGainsFromScene } from '../../analysis/layerGains.ts';
import { cameraViewFromCamera } from '../../camera/cameraView.ts';
import type { CameraView } from '../../camera/view.ts';
import { frameSceneFromSetup } from '../../document/frameScene.ts';
import type { Setup } from '../../document/setup.ts';
import { buildSet } from '../../scene/buildSet.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import { documentStore, useDocument } from './documentStore.ts';
import { memoizeLast } from './memoizeLast.ts';
import { sessionStore, useSession } from './sessionStore.ts';

/*
 * What follows from the document and the frame on screen. Each is computed once per change, whoever asks, so that all
 * views and the tracer stand on the same objects; compare them by identity.
 */

/** The records of one frame with its overrides applied. */
export const deriveFrameScene: (setup: Setup, frameId: string) => FrameScene = memoizeLast(frameSceneFromSetup);
/** Exact surfaces and volumes of a frame. */
export const deriveSetModel: (scene: FrameScene) => SetModel = memoizeLast(buildSet);
/** Camera rays of a frame. */
export const deriveCameraView: (scene: FrameScene) => CameraView = memoizeLast((scene: FrameScene) =>
  cameraViewFromCamera(scene.camera),
);
/** layers x 3 working RGB gains in the order of `SetModel.layerFixtureIds`; unsoloed fixtures are 0 when any is soloed. */
export const deriveLayerGains: (scene: FrameScene, soloFixtureIds: readonly string[]) => Float32Array =
  memoizeLast(layerGainsFromScene);

/** For code outside React, for example a frame loop. */
export const getFrameScene = (): FrameScene =>
  deriveFrameScene(documentStore.getState().setup, sessionStore.getState().frameId);
export const getSetModel = (): SetModel => deriveSetModel(getFrameScene());
export const getCameraView = (): CameraView => deriveCameraView(getFrameScene());
export const getLayerGains = (): Float32Array =>
  deriveLayerGains(getFrameScene(), sessionStore.getState().soloFixtureIds);

export function useFrameScene(): FrameScene {
  const setup = useDocument((state) => state.setup);
  const frameId = useSession((state) => state.frameId);
  return deriveFrameScene(setup, frameId);
}
export const useSetModel = (): SetModel => deriveSetModel(useFrameScene());
export const useCameraView = (): CameraView => deriveCameraView(useFrameScene());
export function useLayerGains(): Float32Array {
  const soloFixtureIds = useSession((state) => state.soloFixtureIds);
  return deriveLayerGains(useFrameScene(), soloFixtureIds);
}
