import { cameraDiagnostics } from '../../camera/cameraDiagnostics.ts';
import { cameraView } from '../../camera/projection.ts';
import type { CameraView } from '../../camera/view.ts';
import type { Diagnostic } from '../../core/diagnostic.ts';
import { invariant } from '../../core/result.ts';
import { resolveFrame } from '../../document/resolveFrame.ts';
import type { Setup } from '../../document/setup.ts';
import { layerGains } from '../../fixtures/gain.ts';
import { buildSet } from '../../scene/buildSet.ts';
import { createSetMemory } from '../../scene/setMemory.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import { documentStore, useDocument } from './documentStore.ts';
import { memoizeLast } from './memoizeLast.ts';
import { sameSet } from './sameSet.ts';
import { CAMERA_ID, sessionStore, useSession } from './sessionStore.ts';

/*
 * What follows from the document and the frame on screen. Each is computed once per change, whoever asks, so that all
 * views and the tracer stand on the same objects; compare them by identity.
 */

/** The records of one frame with its overrides applied; of the first frame when there is none of that id. */
export const deriveFrameScene: (setup: Setup, frameId: string) => FrameScene = memoizeLast(
  (setup: Setup, frameId: string) => {
    const known = setup.frames.some((frame) => frame.id === frameId);
    const resolved = resolveFrame(setup, known ? frameId : setup.frames[0].id);
    invariant(resolved.ok, () => 'the open setup is valid, so its frames resolve');
    return resolved.value;
  },
);
/** Exact surfaces and volumes of a frame; the same object for as long as nothing on the set moves. */
export const deriveSetModel: (scene: FrameScene) => SetModel = (() => {
  let last: { readonly scene: FrameScene; readonly set: SetModel } | null = null;
  // While one thing is dragged, the surfaces of all others stay the same objects.
  const memory = createSetMemory();
  return (scene: FrameScene) => {
    if (last === null || (last.scene !== scene && !sameSet(last.scene, scene)))
      last = { scene, set: buildSet(scene, memory) };
    return last.set;
  };
})();
/** Camera rays of a frame, in the shape of the whole sensor. */
export const deriveCameraView: (camera: FrameScene['camera']) => CameraView = memoizeLast(
  (camera: FrameScene['camera']) => cameraView(camera),
);
/** layers x 3 working RGB gains in the order of the fixtures; unsoloed fixtures are 0 when any is soloed. */
export const deriveLayerGains: (scene: FrameScene, soloFixtureIds: readonly string[]) => Float32Array = memoizeLast(
  (scene: FrameScene, soloFixtureIds: readonly string[]) => {
    const soloing = soloFixtureIds.some((id) => scene.fixtures.some((fixture) => fixture.id === id));
    return layerGains(
      scene.fixtures.map((fixture) =>
        soloing && !soloFixtureIds.includes(fixture.id) ? { ...fixture, on: false } : fixture,
      ),
    );
  },
);

/** Everything doubtful about the records of a frame: what cannot be made, overlaps, odd settings of lights and camera. */
export const deriveDiagnostics: (set: SetModel, camera: FrameScene['camera']) => readonly Diagnostic[] = memoizeLast(
  (set: SetModel, camera: FrameScene['camera']) => [
    ...set.diagnostics,
    ...cameraDiagnostics(camera).map((diagnostic) => ({ ...diagnostic, recordId: CAMERA_ID })),
  ],
);

/** For code outside React, for example a frame loop. */
export const getFrameScene = (): FrameScene =>
  deriveFrameScene(documentStore.getState().setup, sessionStore.getState().frameId);
export const getSetModel = (): SetModel => deriveSetModel(getFrameScene());
export const getCameraView = (): CameraView => deriveCameraView(getFrameScene().camera);
export const getLayerGains = (): Float32Array =>
  deriveLayerGains(getFrameScene(), sessionStore.getState().soloFixtureIds);

export function useFrameScene(): FrameScene {
  const setup = useDocument((state) => state.setup);
  const frameId = useSession((state) => state.frameId);
  return deriveFrameScene(setup, frameId);
}
export const useSetModel = (): SetModel => deriveSetModel(useFrameScene());
export const useDiagnostics = (): readonly Diagnostic[] => deriveDiagnostics(useSetModel(), useFrameScene().camera);
export const useCameraView = (): CameraView => deriveCameraView(useFrameScene().camera);
export function useLayerGains(): Float32Array {
  const soloFixtureIds = useSession((state) => state.soloFixtureIds);
  return deriveLayerGains(useFrameScene(), soloFixtureIds);
}
