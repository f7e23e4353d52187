import type { PredictedReading } from '../../deliverables/sheets/predictedReadings.ts';
import { documentStore, sessionStore } from '../../views/session/index.ts';
import type { MeterReply, MeterRequest } from './meterProtocol.ts';

/** What a meter should read at every point of the frame on screen; the bounces of a set take seconds. */
export async function predictMeter(): Promise<readonly PredictedReading[]> {
  const { setup } = documentStore.getState();
  const { frameId } = sessionStore.getState();
  const known = setup.frames.some(({ id }) => id === frameId);
  const worker = new Worker(new URL('./meterWorker.ts', import.meta.url), { type: 'module' });
  const answer = new Promise<readonly PredictedReading[]>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<MeterReply>) => {
      if (data.type === 'readings') resolve(data.readings);
      else reject(new Error(data.message));
    };
    worker.onerror = (event) => reject(new Error(event.message || 'the worker could not start'));
  });
  const request: MeterRequest = { setup, frameId: known ? frameId : setup.frames[0].id };
  worker.postMessage(request);
  return answer.finally(() => worker.terminate());
}
