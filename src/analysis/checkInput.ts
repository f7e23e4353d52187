import { cameraView } from '../camera/projection.ts';
import { layerGains } from '../fixtures/gain.ts';
import { buildSet } from '../scene/buildSet.ts';
import type { FrameScene } from '../scene/setModel.ts';
import { compileWorld } from '../transport/compile/compileWorld.ts';
import { createRayQuery } from '../transport/cpu/rayQuery.ts';
import type { CheckInput, CheckLimits } from './contracts.ts';
import { DEFAULT_LIMITS } from './limits.ts';

/** Builds, compiles and opens one frame for the checks. Limits that are left out take their defaults. */
export function createCheckInput(
  scene: FrameScene,
  limits: Partial<CheckLimits> = {},
  gains: Float32Array = layerGains(scene.fixtures),
): CheckInput {
  const set = buildSet(scene);
  const stated = Object.fromEntries(Object.entries(limits).filter(([, value]) => value !== undefined));
  return {
    scene,
    set,
    query: createRayQuery(compileWorld(set)),
    view: cameraView(scene.camera),
    layerGains: gains,
    limits: { ...DEFAULT_LIMITS, ...stated },
  };
}

/** The same run on a changed scene: same limits and settings, and the gains of layers that still exist. */
export function changeInput(input: CheckInput, scene: FrameScene): CheckInput {
  const before = new Map(input.set.layerFixtureIds.map((id, i) => [id, i]));
  const gains = layerGains(scene.fixtures);
  scene.fixtures.forEach((fixture, i) => {
    const at = before.get(fixture.id);
    if (at !== undefined) gains.set(input.layerGains.subarray(at * 3, at * 3 + 3), i * 3);
  });
  const { frameId, marks, room, capture } = input;
  return { ...createCheckInput(scene, input.limits, gains), frameId, marks, room, capture };
}
