/// <reference lib="webworker" />
import { createCheckInput } from '../../analysis/checkInput.ts';
import { predictReadings } from '../../deliverables/sheets/predictedReadings.ts';
import { resolveFrame } from '../../document/resolveFrame.ts';
import type { MeterReply, MeterRequest } from './meterProtocol.ts';

const reply = (message: MeterReply): void => self.postMessage(message);

/* Lives for one answer. */
self.addEventListener('message', ({ data: { setup, frameId } }: MessageEvent<MeterRequest>) => {
  try {
    const scene = resolveFrame(setup, frameId);
    if (!scene.ok) reply({ type: 'failure', message: scene.error[0]?.message ?? 'the frame cannot be resolved' });
    else reply({ type: 'readings', readings: predictReadings(createCheckInput(scene.value)) });
  } catch (error) {
    reply({ type: 'failure', message: error instanceof Error ? error.message : String(error) });
  }
});
