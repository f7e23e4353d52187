/// <reference lib="webworker" />
import { createCheckCache } from '../../analysis/keep/checkCache.ts';
import { DEFAULT_LIMITS } from '../../analysis/limits.ts';
import { runChecks } from '../../analysis/runChecks.ts';
import { cameraView } from '../../camera/projection.ts';
import { layerGains } from '../../fixtures/gain.ts';
import { buildSet } from '../../scene/buildSet.ts';
import type { SetModel } from '../../scene/setModel.ts';
import { compileWorld } from '../../transport/compile/compileWorld.ts';
import type { RayQuery } from '../../transport/contracts.ts';
import { createRayQuery } from '../../transport/cpu/rayQuery.ts';
import type { CheckReply, CheckRequest } from './checkProtocol.ts';

/*
 * Builds the set and runs the checks off the page's thread. The page sends one request at a time and keeps only the
 * newest of what comes up meanwhile, so nothing has to be cancelled here.
 */
let built: { readonly key: string; readonly set: SetModel; readonly query: RayQuery } | null = null;

/** What the last run found that still holds after a move. */
const cache = createCheckCache();

const reply = (message: CheckReply): void => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<CheckRequest>) => {
  const { jobId, key, scene, settings, remedies } = data;
  try {
    if (built?.key !== key) {
      const set = buildSet(scene);
      const world = compileWorld(set);
      built = { key, set, query: createRayQuery(world) };
      reply({ type: 'world', jobId, key, world });
    }
    const { findings, figures } = runChecks(
      {
        scene,
        set: built.set,
        query: built.query,
        view: cameraView(scene.camera),
        layerGains: layerGains(scene.fixtures),
        ...settings,
        limits: { ...DEFAULT_LIMITS, ...settings.limits },
      },
      // Both take longer than a hand that holds something will wait.
      { remedies, sweep: remedies, cache },
    );
    reply({ type: 'result', jobId, findings, figures });
  } catch (error) {
    reply({ type: 'failure', jobId, message: error instanceof Error ? error.message : String(error) });
  }
});
