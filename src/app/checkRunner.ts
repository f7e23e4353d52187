import { checkSettingsOf } from '../document/checkSettings.ts';
import { traceKey } from '../document/hash.ts';
import { documentStore, getFrameScene, resultsStore, sessionStore, worldStore } from '../views/session/index.ts';
import type { CheckReply, CheckRequest } from './workers/checkProtocol.ts';

/**
 * Keeps findings and the compiled set in step with the frame on screen. Every change is sent at once; the worker stops what it is
 * at for a newer one. Findings of a run that was let end while a newer one waits are shown, and the newer ones after them.
 * @returns stops it.
 */
export function startChecks(worker: Worker): () => void {
  let jobId = 0;
  /** First request for the frame on screen. */
  let frameJobId = 0;
  let lastFrameId = '';
  let lastRemedies = false;
  let lastScene: CheckRequest['scene'] | null = null;
  let lastFrame: object | undefined;
  let lastRoom: object | undefined;

  const send = () => {
    const scene = getFrameScene();
    const { frameId, dragging } = sessionStore.getState();
    const remedies = !dragging;
    const { setup } = documentStore.getState();
    const frame = setup.frames.find((entry) => entry.id === frameId) ?? setup.frames[0];
    const isSame = scene === lastScene && frame === lastFrame && setup.room === lastRoom;
    if (isSame && remedies === lastRemedies) return;
    lastScene = scene;
    lastFrame = frame;
    lastRoom = setup.room;
    lastRemedies = remedies;
    // Findings of another frame say nothing about this one.
    jobId += 1;
    if (frameId !== lastFrameId) {
      resultsStore.setState({ findings: [], figures: {}, hasResults: false });
      frameJobId = jobId;
    }
    lastFrameId = frameId;
    resultsStore.setState({ checking: true });
    const request: CheckRequest = {
      jobId,
      key: traceKey(scene),
      scene,
      settings: checkSettingsOf(setup, frame),
      remedies,
    };
    worker.postMessage(request);
  };
  const finish = (endedId: number) => {
    if (endedId === jobId) resultsStore.setState({ checking: false });
  };

  worker.addEventListener('message', ({ data }: MessageEvent<CheckReply>) => {
    switch (data.type) {
      case 'world':
        worldStore.setState({ world: data.world, key: data.key });
        return;
      case 'result':
        if (data.jobId >= frameJobId) {
          resultsStore.setState({ findings: data.findings, figures: data.figures, hasResults: true, error: null });
        }
        finish(data.jobId);
        return;
      case 'stopped':
        finish(data.jobId);
        return;
      case 'failure':
        resultsStore.setState({ error: data.message });
        finish(data.jobId);
        return;
    }
  });
  worker.addEventListener('error', (event) => {
    resultsStore.setState({ error: event.message || 'the worker could not start', checking: false });
  });

  const unsubscribe = [
    documentStore.subscribe((state, before) => {
      if (state.setup !== before.setup) send();
    }),
    sessionStore.subscribe((state, before) => {
      if (state.frameId !== before.frameId || state.dragging !== before.dragging) send();
    }),
  ];
  send();
  return () => {
    for (const off of unsubscribe) off();
    worker.terminate();
  };
}
