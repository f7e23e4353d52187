import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { emptySetup } from '../../../src/document/defaults.ts';
import { traceKey } from '../../../src/document/hash.ts';
import { FIXTURE_PRESETS, fixtureFromPreset } from '../../../src/fixtures/catalog.ts';
import { compileWorld } from '../../../src/transport/compile/compileWorld.ts';
import type { TraceJob } from '../../../src/transport/contracts.ts';
import { createFilm } from '../../../src/transport/cpu/film.ts';
import type { TraceEvents, TracePool, TraceProgress } from '../../../src/transport/workers/tracePool.ts';
import {
  chooseFilmSize,
  createTraceController,
  type TraceController,
} from '../../../src/views/frame/traceController.ts';
import { INITIAL_TRACE, traceStore } from '../../../src/views/frame/traceStore.ts';
import {
  documentStore,
  getCameraView,
  getFrameScene,
  getSetModel,
  INITIAL_SESSION,
  sessionStore,
  updateRecord,
  worldStore,
} from '../../../src/views/session/index.ts';

/** A pool that traces nothing and lets the test say how far a job has come. */
function createHandPool() {
  const jobs: { readonly job: TraceJob; readonly events: TraceEvents; cancelled: boolean }[] = [];
  const pool: TracePool = {
    start(job, events) {
      const film = createFilm(job.widthPx, job.heightPx, job.world.layerIds);
      const entry = { job, events, cancelled: false, film };
      jobs.push(entry);
      return {
        film,
        cancel() {
          entry.cancelled = true;
        },
      };
    },
    dispose() {},
  };
  const progress = (samplesDone: number, samplesPerPixel: number): TraceProgress => ({
    samplesDone,
    samplesPerPixel,
    relativeError: 0.1,
    dropped: 0,
  });
  return {
    pool,
    jobs,
    /** Reports on the newest job. */
    reach(samplesDone: number) {
      const { job, events } = jobs[jobs.length - 1];
      const film = createFilm(job.widthPx, job.heightPx, job.world.layerIds);
      const report = progress(samplesDone, job.samplesPerPixel);
      if (samplesDone >= job.samplesPerPixel) events.onDone?.(film, report);
      else events.onProgress?.(film, report);
    },
  };
}

const giveWorld = () => worldStore.setState({ world: compileWorld(getSetModel()), key: traceKey(getFrameScene()) });
const settle = () => vi.advanceTimersByTime(1000);

let hand: ReturnType<typeof createHandPool>;
let controller: TraceController;

beforeEach(() => {
  vi.useFakeTimers();
  sessionStore.setState(INITIAL_SESSION);
  traceStore.setState(INITIAL_TRACE);
  documentStore.load({
    ...emptySetup(),
    fixtures: [
      fixtureFromPreset(FIXTURE_PRESETS[0], {
        id: 'light',
        name: 'Light',
        positionM: [0.5, 0.6, 0],
        aimM: [0, 0.1, 0],
      }),
    ],
  });
  hand = createHandPool();
  controller = createTraceController(hand.pool);
  giveWorld();
  controller.setShownWidthPx(960);
  settle();
});
afterEach(() => {
  controller.dispose();
  vi.useRealTimers();
});

describe('the trace of the frame on screen', () => {
  it('begins with a small film, then goes on to 960 x 540', () => {
    expect(hand.jobs.map(({ job }) => [job.widthPx, job.heightPx])).toEqual([[320, 180]]);
    hand.reach(4);
    expect(hand.jobs.map(({ job }) => [job.widthPx, job.heightPx])).toEqual([
      [320, 180],
      [960, 540],
    ]);
    expect(traceStore.getState()).toMatchObject({ phase: 'tracing', samples: 0, tracesStarted: 1 });
    expect(traceStore.getState().film?.widthPx).toBe(320);
    hand.reach(2);
    expect(traceStore.getState()).toMatchObject({ phase: 'tracing', samples: 2 });
    expect(traceStore.getState().film?.widthPx).toBe(960);
  });

  it('does not trace again for a dimmer, a colour, a switch, ISO, shutter or white balance', () => {
    hand.reach(4);
    hand.reach(256);
    const { film } = traceStore.getState();
    for (const patch of [{ dimStops: -3 }, { cctK: 3000 }, { on: false }]) {
      documentStore.apply('light', [updateRecord('fixtures', 'light', patch)]);
    }
    for (const patch of [{ iso: 1600 }, { shutterS: 0.1 }, { whiteBalanceK: 3200 }]) {
      documentStore.apply('camera', [updateRecord('camera', 'frame:1', patch)]);
    }
    giveWorld();
    settle();
    expect(hand.jobs.length).toBe(2);
    expect(traceStore.getState()).toMatchObject({ phase: 'done', tracesStarted: 1 });
    expect(traceStore.getState().film === film).toBe(true);
  });

  it('drops the picture and starts anew once a moved light has settled', () => {
    hand.reach(4);
    documentStore.apply('move', [updateRecord('fixtures', 'light', { positionM: [0.6, 0.6, 0] })]);
    expect(hand.jobs[1].cancelled).toBe(true);
    expect(traceStore.getState().film).toBeNull();
    giveWorld();
    settle();
    expect(hand.jobs.length).toBe(3);
  });

  it('waits for the world of the moved light and never traces a stale one', () => {
    documentStore.apply('move', [updateRecord('fixtures', 'light', { positionM: [0.6, 0.6, 0] })]);
    settle();
    expect(hand.jobs.length).toBe(1);
    expect(traceStore.getState().phase).toBe('compiling');
    giveWorld();
    settle();
    expect(hand.jobs.length).toBe(2);
  });

  it('keeps the film of another stop up as a stand-in, since only the depth of field differs', () => {
    hand.reach(4);
    hand.reach(256);
    const { film } = traceStore.getState();
    documentStore.apply('stop', [updateRecord('camera', 'frame:1', { apertureFNumber: 11.3137 })]);
    expect(traceStore.getState().film === film).toBe(true);
    giveWorld();
    settle();
    expect(hand.jobs.length).toBe(3);
    expect(traceStore.getState()).toMatchObject({ phase: 'tracing', samples: 0 });
    expect(traceStore.getState().film === film).toBe(true);
  });

  it('brings the finished film back on undo without tracing', () => {
    hand.reach(4);
    hand.reach(256);
    const { film } = traceStore.getState();
    documentStore.apply('move', [updateRecord('fixtures', 'light', { positionM: [0.6, 0.6, 0] })]);
    documentStore.undo();
    giveWorld();
    settle();
    expect(traceStore.getState().phase).toBe('done');
    expect(traceStore.getState().film === film).toBe(true);
    expect(hand.jobs.length).toBe(2);
  });

  it('stops while something is held and takes up again when it is let go', () => {
    hand.reach(4);
    sessionStore.setState({ dragging: true });
    expect(hand.jobs[1].cancelled).toBe(true);
    expect(traceStore.getState().phase).toBe('held');
    sessionStore.setState({ dragging: false });
    settle();
    expect(hand.jobs.length).toBeGreaterThan(2);
    expect(traceStore.getState().phase).toBe('tracing');
  });

  it('ignores what a dropped job still says', () => {
    hand.reach(4);
    const stale = hand.jobs[1];
    documentStore.apply('move', [updateRecord('fixtures', 'light', { positionM: [0.6, 0.6, 0] })]);
    stale.events.onProgress?.(createFilm(960, 540, []), {
      samplesDone: 8,
      samplesPerPixel: 256,
      relativeError: 0.1,
      dropped: 0,
    });
    expect(traceStore.getState().film).toBeNull();
  });
});

describe('the size of the film', () => {
  it('follows the picture up to 960 x 540 and no further', () => {
    const view = getCameraView();
    expect(chooseFilmSize(view, 640)).toEqual({ widthPx: 640, heightPx: 360 });
    expect(chooseFilmSize(view, 1840)).toEqual({ widthPx: 960, heightPx: 540 });
  });

  it('keeps the height at 540 for a 3:2 frame, which is then 810 wide', () => {
    const view = { ...getCameraView(), tanHalfWidth: 0.15, tanHalfHeight: 0.1 };
    expect(chooseFilmSize(view, 1840)).toEqual({ widthPx: 810, heightPx: 540 });
  });
});
