/** What the app's worker of checks does, on a thread of Node: the same jobs, told and answered through the parent's port. */
import { parentPort } from 'node:worker_threads';
import { createCheckJobs } from '../../src/app/workers/checkJobs.ts';

const pause = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
const take = createCheckJobs((reply) => {
  // The world crosses to the page in the app as well; here only its coming counts.
  parentPort?.postMessage(reply.type === 'world' ? { type: 'world', jobId: reply.jobId } : reply);
}, pause);
parentPort?.on('message', take);
