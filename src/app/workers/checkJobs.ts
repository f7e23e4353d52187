import { createCheckCache } from '../../analysis/keep/checkCache.ts';
import { DEFAULT_LIMITS } from '../../analysis/limits.ts';
import { checkSteps } from '../../analysis/runChecks.ts';
import { cameraView } from '../../camera/projection.ts';
import { layerGains } from '../../fixtures/gain.ts';
import { buildSet } from '../../scene/buildSet.ts';
import { createSetMemory } from '../../scene/setMemory.ts';
import type { SetModel } from '../../scene/setModel.ts';
import { compileWorld } from '../../transport/compile/compileWorld.ts';
import type { RayQuery } from '../../transport/contracts.ts';
import { createRayQuery } from '../../transport/cpu/rayQuery.ts';
import type { CheckReply, CheckRequest } from './checkProtocol.ts';

/**
 * Takes requests as they come and answers the newest. A newer one stops the one under way between two checks; but of two runs in
 * a row only one is stopped, so that findings still come while a hand never rests.
 *
 * @param pause lets whatever waits be heard, a newer request among it
 */
export function createCheckJobs(
  reply: (message: CheckReply) => void,
  pause: () => Promise<void>,
): (request: CheckRequest) => void {
  let built: { readonly key: string; readonly set: SetModel; readonly query: RayQuery } | null = null;
  // Records that did not change are not built again.
  const memory = createSetMemory();
  // What the last run found that still holds after a move.
  const cache = createCheckCache();
  let newest: CheckRequest | null = null;
  let isRunning = false;
  let isLastStopped = false;

  const openSet = ({ jobId, key, scene }: CheckRequest) => {
    if (built?.key === key) return built;
    const set = buildSet(scene, memory);
    const world = compileWorld(set);
    built = { key, set, query: createRayQuery(world) };
    reply({ type: 'world', jobId, key, world });
    return built;
  };

  const check = async (request: CheckRequest): Promise<void> => {
    const { jobId, scene, settings, remedies } = request;
    const mayStop = !isLastStopped;
    isLastStopped = false;
    const { set, query } = openSet(request);
    const steps = checkSteps(
      {
        scene,
        set,
        query,
        view: cameraView(scene.camera),
        layerGains: layerGains(scene.fixtures),
        ...settings,
        limits: { ...DEFAULT_LIMITS, ...settings.limits },
      },
      // Both take longer than a hand that holds something will wait.
      { remedies, sweep: remedies, cache },
    );
    for (;;) {
      await pause();
      if (mayStop && newest) {
        isLastStopped = true;
        reply({ type: 'stopped', jobId });
        return;
      }
      const step = steps.next();
      if (step.done) {
        const { findings, figures } = step.value;
        reply({ type: 'result', jobId, findings, figures });
        return;
      }
    }
  };

  const runAll = async (): Promise<void> => {
    isRunning = true;
    while (newest) {
      const request = newest;
      newest = null;
      try {
        await check(request);
      } catch (error) {
        const message = error instanceof Error ? error.message : String(error);
        reply({ type: 'failure', jobId: request.jobId, message });
      }
    }
    isRunning = false;
  };

  return (request) => {
    newest = request;
    if (!isRunning) void runAll();
  };
}
