import type { PredictedReading } from '../../deliverables/sheets/predictedReadings.ts';
import type { Setup } from '../../document/setup.ts';

export interface MeterRequest {
  readonly setup: Setup;
  readonly frameId: string;
}

export type MeterReply =
  | { readonly type: 'readings'; readonly readings: readonly PredictedReading[] }
  | { readonly type: 'failure'; readonly message: string };
