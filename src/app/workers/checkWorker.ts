/// <reference lib="webworker" />
import { createCheckJobs } from './checkJobs.ts';
import type { CheckRequest } from './checkProtocol.ts';

/*
 * Builds the set and runs the checks off the page's thread. Between two checks it lets the messages in that wait: one round trip
 * through a channel of its own is queued behind them, and costs microseconds where a timer would cost milliseconds.
 */
const { port1, port2 } = new MessageChannel();
const pause = (): Promise<void> =>
  new Promise((resolve) => {
    port1.onmessage = () => resolve();
    port2.postMessage(null);
  });

const take = createCheckJobs((message) => self.postMessage(message), pause);

self.addEventListener('message', ({ data }: MessageEvent<CheckRequest>) => take(data));
