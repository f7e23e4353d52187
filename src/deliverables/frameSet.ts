import { cameraView } from '../camera/projection.ts';
import type { CameraView } from '../camera/view.ts';
import { ok, type Result } from '../core/result.ts';
import type { SetupIssue } from '../document/issues.ts';
import { findFrame, resolveFrame } from '../document/resolveFrame.ts';
import type { Frame, Setup } from '../document/setup.ts';
import { buildSet } from '../scene/buildSet.ts';
import type { FrameScene, SetModel } from '../scene/setModel.ts';

/** One frame of a setup with everything that the papers show of it. */
export interface FrameSet {
  readonly setup: Setup;
  readonly frame: Frame;
  readonly scene: FrameScene;
  readonly set: SetModel;
  readonly view: CameraView;
}

/** Resolves and builds one frame, by id or by name. */
export function openFrameSet(setup: Setup, frameIdOrName: string): Result<FrameSet, readonly SetupIssue[]> {
  const frame = findFrame(setup, frameIdOrName);
  if (!frame.ok) return frame;
  const scene = resolveFrame(setup, frame.value.id);
  if (!scene.ok) return scene;
  return ok({
    setup,
    frame: frame.value,
    scene: scene.value,
    set: buildSet(scene.value),
    view: cameraView(scene.value.camera),
  });
}
