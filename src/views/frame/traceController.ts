import type { CameraView } from '../../camera/view.ts';
import { traceKey } from '../../document/hash.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import type { Film, TraceJob } from '../../transport/contracts.ts';
import type { TraceHandle, TracePool, TraceProgress } from '../../transport/workers/tracePool.ts';
import {
  documentStore,
  getCameraView,
  getFrameScene,
  getLayerGains,
  resultsStore,
  sessionStore,
  worldStore,
} from '../session/index.ts';
import { createFilmShelf } from './filmShelf.ts';
import { type TraceState, traceStore } from './traceStore.ts';

const TARGET_SAMPLES = 256;
const MAX_DEPTH = 24;
const SEED = 1;
/** Moves that follow one another faster than this (arrow keys, typing) are waited for before a trace begins. */
const SETTLE_MS = 180;
export const MAX_FILM_WIDTH_PX = 960;
export const MAX_FILM_HEIGHT_PX = 540;

export interface FilmSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Film for a picture of this shape shown this wide: its own pixels, but no more than 960 x 540 of them. */
export function chooseFilmSize(view: CameraView, shownWidthPx: number): FilmSize {
  const aspect = view.tanHalfWidth / view.tanHalfHeight;
  const widthPx = Math.min(Math.round(shownWidthPx), MAX_FILM_WIDTH_PX, Math.round(MAX_FILM_HEIGHT_PX * aspect));
  return { widthPx: Math.max(16, widthPx), heightPx: Math.max(16, Math.round(widthPx / aspect)) };
}

const SKETCH_SAMPLES = 4;
const sketchSize = ({ widthPx, heightPx }: FilmSize): FilmSize => ({
  widthPx: Math.max(16, Math.round(widthPx / 3)),
  heightPx: Math.max(16, Math.round(heightPx / 3)),
});

/** Everything that shapes the picture but the stop: a film traced at another stop stands in until the new one is there. */
export const standInKey = (scene: FrameScene): string =>
  traceKey({ ...scene, camera: { ...scene.camera, apertureFNumber: 8 } });

export interface TraceController {
  /** Tells how wide the picture is shown, in device pixels. */
  setShownWidthPx(widthPx: number): void;
  dispose(): void;
}

/**
 * Keeps the traced picture of the frame on screen going: starts a trace when the set or the view has changed and
 * nothing is held, drops it when they change again, and brings back films that still hold (undo, another frame).
 */
export function createTraceController(pool: TracePool): TraceController {
  const shelf = createFilmShelf();
  let running: { readonly key: string; cancel(): void } | null = null;
  let settling: ReturnType<typeof setTimeout> | undefined;
  let shownWidthPx = 0;
  let lastWantedKey = '';
  let released = false;

  const publish = (patch: Partial<TraceState>) => traceStore.setState(patch);
  const publishFilm = (film: Film | null, patch: Partial<TraceState>) =>
    publish({ ...patch, film, filmRevision: traceStore.getState().filmRevision + 1 });

  const stop = () => {
    running?.cancel();
    running = null;
    clearTimeout(settling);
  };

  const wantedKey = (): string => {
    const { widthPx, heightPx } = chooseFilmSize(getCameraView(), shownWidthPx);
    return `${traceKey(getFrameScene())}@${widthPx}x${heightPx}`;
  };

  /** Shows the best film at hand for what is wanted now: the very one, else one that differs in the stop alone. */
  const showFromShelf = (key: string) => {
    const exact = shelf.find(key);
    const film = exact ?? shelf.findStandIn(standInKey(getFrameScene()));
    publishFilm(film?.film ?? null, { samples: film?.samples ?? 0, grain: film?.grain ?? null });
    return exact;
  };

  const begin = (key: string) => {
    const { world, key: worldKey } = worldStore.getState();
    const scene = getFrameScene();
    if (world === null || worldKey !== traceKey(scene)) {
      publish({ phase: 'compiling' });
      return;
    }
    const kept = shelf.find(key);
    if (kept?.finished) {
      publish({ phase: 'done', samples: kept.samples, targetSamples: TARGET_SAMPLES, grain: kept.grain });
      return;
    }
    const size = chooseFilmSize(getCameraView(), shownWidthPx);
    const job: TraceJob = {
      world,
      view: getCameraView(),
      ...size,
      seed: SEED,
      samplesPerPixel: TARGET_SAMPLES,
      maxDepth: MAX_DEPTH,
      layerGains: getLayerGains(),
    };
    publish({
      phase: 'tracing',
      samples: kept?.samples ?? 0,
      grain: kept?.grain ?? null,
      targetSamples: TARGET_SAMPLES,
      tracesStarted: traceStore.getState().tracesStarted + 1,
    });
    const onError = (error: Error) => publish({ phase: 'failed', error: error.message });
    const isCurrent = () => running?.key === key;
    const run = (handle: TraceHandle) => {
      running = { key, cancel: () => handle.cancel() };
    };

    const traceWhole = () => {
      const similarKey = standInKey(scene);
      const take = (film: Film, info: TraceProgress, finished: boolean) => {
        const samples = info.samplesDone;
        // A film of this very picture that was further along stays up until the new one has caught up with it.
        if (!isCurrent() || (kept && samples < kept.samples && !finished)) return;
        const grain = grainOf(info);
        shelf.put({ key, standInKey: similarKey, film, samples, grain, finished });
        publishFilm(film, { phase: finished ? 'done' : 'tracing', samples, grain });
      };
      run(
        pool.start(job, {
          onProgress: (film, info) => take(film, info, false),
          onDone: (film, info) => take(film, info, true),
          onError,
        }),
      );
    };
    // With nothing to show yet, a small film comes first: a ninth of the pixels, there in a fraction of a pass.
    if (traceStore.getState().film !== null) traceWhole();
    else {
      const small = { ...job, ...sketchSize(size), samplesPerPixel: SKETCH_SAMPLES };
      run(
        pool.start(small, {
          onDone: (film) => {
            if (!isCurrent()) return;
            publishFilm(film, {});
            traceWhole();
          },
          onError,
        }),
      );
    }
  };

  const reconsider = () => {
    if (shownWidthPx === 0) return;
    const { dragging } = sessionStore.getState();
    const key = wantedKey();
    if (dragging) {
      if (running) stop();
      lastWantedKey = '';
      released = true;
      publish({ phase: 'held' });
      return;
    }
    if (key === lastWantedKey && running?.key === key) return;
    if (key !== lastWantedKey) {
      stop();
      lastWantedKey = key;
      const exact = showFromShelf(key);
      if (exact?.finished) {
        publish({ phase: 'done', targetSamples: TARGET_SAMPLES });
        return;
      }
      publish({ phase: 'compiling' });
    }
    if (traceStore.getState().phase === 'done') return;
    clearTimeout(settling);
    // A hand that lets go has settled.
    settling = setTimeout(() => begin(key), released ? 0 : SETTLE_MS);
    released = false;
  };

  const unsubscribe = [
    documentStore.subscribe(reconsider),
    worldStore.subscribe(reconsider),
    sessionStore.subscribe((state, before) => {
      if (state.frameId !== before.frameId || state.dragging !== before.dragging) reconsider();
    }),
    resultsStore.subscribe((state) => {
      // Without a built set there is nothing to trace.
      const waiting = traceStore.getState().phase === 'compiling';
      if (state.error !== null && waiting) publish({ phase: 'failed', error: state.error });
    }),
  ];
  return {
    setShownWidthPx(widthPx) {
      shownWidthPx = widthPx;
      reconsider();
    },
    dispose() {
      stop();
      for (const off of unsubscribe) off();
    },
  };
}

/** Two samples a pixel tell nothing yet. */
const grainOf = (info: TraceProgress): number | null =>
  info.samplesDone >= 4 && Number.isFinite(info.relativeError) ? info.relativeError : null;
