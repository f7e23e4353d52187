import { describe, expect, it } from 'vitest';
import { createCheckInput, runChecks } from '../../src/analysis/index.ts';
import { DEFAULT_CAPTURE, DEFAULT_ROOM } from '../../src/analysis/limits.ts';
import { createCheckJobs } from '../../src/app/workers/checkJobs.ts';
import type { CheckReply, CheckRequest } from '../../src/app/workers/checkProtocol.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { panel, scene } from '../analysis/helpers/scenes.ts';

const settings = { frameId: 'frame', limits: {}, marks: [], room: DEFAULT_ROOM, capture: DEFAULT_CAPTURE };
const movedTo = (x: number): FrameScene => scene({ fixtures: [panel({ positionM: [x, 0.75, -0.9] })] });
const request = (jobId: number, of: FrameScene): CheckRequest => ({
  jobId,
  key: JSON.stringify(of),
  scene: of,
  settings,
  remedies: false,
});
const expected = (of: FrameScene) =>
  runChecks(
    { ...createCheckInput(of), ...settings, limits: createCheckInput(of).limits },
    { remedies: false, sweep: false },
  );

/** Jobs with a pause that hands on `arrivals` by the number of the pause, and all their replies once nothing is left to do. */
async function runJobs(
  first: CheckRequest,
  arrivals: (pause: number) => readonly CheckRequest[],
): Promise<CheckReply[]> {
  const replies: CheckReply[] = [];
  let pauses = 0;
  let resting = 0;
  const take = createCheckJobs(
    (reply) => {
      replies.push(reply);
    },
    async () => {
      for (const next of arrivals(++pauses)) take(next);
      await Promise.resolve();
    },
  );
  take(first);
  // Everything runs in promises alone: the queue of timers is reached again only when all of them are done.
  while (resting < 2) {
    const before = pauses;
    await new Promise((resolve) => setTimeout(resolve, 0));
    resting = pauses === before ? resting + 1 : 0;
  }
  return replies;
}
const said = (replies: readonly CheckReply[]) => replies.map(({ type, jobId }) => `${type} ${jobId}`);

describe('requests of checks', () => {
  it('stops a run in its middle for a newer one, and answers that as if it had come alone', async () => {
    const replies = await runJobs(request(1, movedTo(0)), (pause) => (pause === 6 ? [request(2, movedTo(0.3))] : []));
    expect(said(replies)).toEqual(['world 1', 'stopped 1', 'world 2', 'result 2']);
    const last = replies[replies.length - 1];
    if (last.type !== 'result') throw new Error('no result');
    expect(last.findings).toEqual(expected(movedTo(0.3)).findings);
  });

  it('answers only the newest of several that come in at once', async () => {
    const replies = await runJobs(request(1, movedTo(0)), (pause) => {
      if (pause !== 3) return [];
      return [request(2, movedTo(0.3)), request(3, movedTo(0.2)), request(4, movedTo(0.1))];
    });
    expect(said(replies)).toEqual(['world 1', 'stopped 1', 'world 4', 'result 4']);
  });

  it('still gives findings while a hand never rests: of two runs in a row one is let end', async () => {
    const replies = await runJobs(request(1, movedTo(0)), (pause) =>
      pause < 60 ? [request(1 + pause, movedTo(pause / 200))] : [],
    );
    const kinds = replies.map(({ type }) => type).filter((type) => type !== 'world');
    expect(kinds.filter((type) => type === 'result').length).toBeGreaterThanOrEqual(2);
    kinds.forEach((kind, i) => {
      if (i > 0 && kind === 'stopped') expect(kinds[i - 1]).toBe('result');
    });
    expect(kinds[kinds.length - 1]).toBe('result');
    expect(replies[replies.length - 1].jobId).toBe(60);
  });

  it('says what went wrong and goes on with the next', async () => {
    const broken = { ...request(1, movedTo(0)), scene: { ...movedTo(0), camera: undefined } as unknown as FrameScene };
    const replies = await runJobs(broken, () => []);
    expect(said(replies)).toEqual(['failure 1']);
    const after = await runJobs(request(2, movedTo(0)), () => []);
    expect(said(after)).toEqual(['world 2', 'result 2']);
  });
});
