import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { startChecks } from '../../src/app/checkRunner.ts';
import type { CheckReply, CheckRequest } from '../../src/app/workers/checkProtocol.ts';
import { documentStore, resultsStore, sessionStore } from '../../src/views/session/index.ts';

/** A worker that only writes down what it is asked. */
class SilentWorker extends EventTarget {
  readonly asked: CheckRequest[] = [];
  onmessage = null;
  onmessageerror = null;
  onerror = null;
  postMessage(request: CheckRequest): void {
    this.asked.push(request);
  }
  terminate(): void {}
  say(data: CheckReply): void {
    this.dispatchEvent(new MessageEvent('message', { data }));
  }
}

let worker: SilentWorker;
let stop: () => void;
beforeEach(() => {
  worker = new SilentWorker();
  stop = startChecks(worker);
});
afterEach(() => {
  stop();
});
const result = (jobId: number): CheckReply => ({ type: 'result', jobId, findings: [], figures: { job: jobId } });
/** Each call makes another change to the document. */
let mainsV = 200;
const change = (): void => {
  mainsV += 1;
  expect(documentStore.apply('Mains', [{ op: 'updateRoom', patch: { mainsV } }]).ok).toBe(true);
};

describe('keeping findings in step', () => {
  it('asks at once, and again for each change while the worker is still at the first', () => {
    change();
    change();
    expect(worker.asked.map(({ jobId }) => jobId)).toEqual([1, 2, 3]);
    expect(resultsStore.getState().checking).toBe(true);
  });

  it('is busy until the newest is answered, whatever comes of the older ones', () => {
    change();
    worker.say({ type: 'stopped', jobId: 1 });
    expect(resultsStore.getState().checking).toBe(true);
    worker.say(result(2));
    expect(resultsStore.getState().checking).toBe(false);
    expect(resultsStore.getState().figures).toEqual({ job: 2 });
  });

  it('shows findings of a run that was let end while a newer one waits', () => {
    change();
    change();
    worker.say(result(2));
    expect(resultsStore.getState().figures).toEqual({ job: 2 });
    expect(resultsStore.getState().checking).toBe(true);
  });

  it('leaves out remedies while something is held, and asks again for them when it is let go', () => {
    sessionStore.setState({ dragging: true });
    change();
    sessionStore.setState({ dragging: false });
    const remedies = worker.asked.map((request) => request.remedies);
    expect(remedies[remedies.length - 2]).toBe(false);
    expect(remedies[remedies.length - 1]).toBe(true);
  });
});
