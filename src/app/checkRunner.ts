import { checkSettingsOf } from '../document/checkSettings.ts';
import { traceKey } from '../document/hash.ts';
import { documentStore, getFrameScene, resultsStore, sessionStore, worldStore } from '../views/session/index.ts';
import type { CheckReply, CheckRequest } from './workers/checkProtocol.ts';

/**
 * Keeps findings and the compiled set in step with the frame on screen. One request is under way at a time; of the
 * changes that come in meanwhile only the newest is sent on.
 * @returns stops it.
 */
export function startChecks(worker: Worker): () => void {
  let jobId = 0;
  let busy = false;
  let stale = false;
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
    if (frameId !== lastFrameId) resultsStore.setState({ findings: [], figures: {}, hasResults: false });
    lastFrameId = frameId;
    busy = true;
    jobId += 1;
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
  const request = () => {
    if (busy) stale = true;
    else send();
  };
  const finish = () => {
    busy = false;
    resultsStore.setState({ checking: false });
    if (!stale) return;
    stale = false;
    send();
  };

  worker.addEventListener('message', ({ data }: MessageEvent<CheckReply>) => {
    switch (data.type) {
      case 'world':
        worldStore.setState({ world: data.world, key: data.key });
        return;
      case 'result':
        if (sessionStore.getState().frameId === lastFrameId) {
          resultsStore.setState({ findings: data.findings, figures: data.figures, hasResults: true, error: null });
        }
        finish();
        return;
      case 'failure':
        resultsStore.setState({ error: data.message });
        finish();
        return;
    }
  });
  worker.addEventListener('error', (event) => {
    resultsStore.setState({ error: event.message || 'the worker could not start', checking: false });
  });

  const unsubscribe = [
    documentStore.subscribe((state, before) => {
      if (state.setup !== before.setup) request();
    }),
    sessionStore.subscribe((state, before) => {
      if (state.frameId !== before.frameId || state.dragging !== before.dragging) request();
    }),
  ];
  request();
  return () => {
    for (const off of unsubscribe) off();
    worker.terminate();
  };
}
