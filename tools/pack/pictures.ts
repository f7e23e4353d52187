import { availableParallelism } from 'node:os';
import { cameraView } from '../../src/camera/projection.ts';
import type { FramePicture } from '../../src/deliverables/contactSheet/contactSheet.ts';
import type { FrameSet } from '../../src/deliverables/frameSet.ts';
import { developedPng, type LitFilm } from '../../src/deliverables/still/developedPng.ts';
import { layerGains } from '../../src/fixtures/gain.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { compileWorld } from '../../src/transport/compile/compileWorld.ts';
import type { Film, TraceJob } from '../../src/transport/contracts.ts';
import { denoiseFilm } from '../../src/transport/cpu/denoiseFilm.ts';
import { createTracePool } from '../../src/transport/workers/tracePool.ts';
import { nodePort } from '../cli/nodePort.ts';
import { createProgressLine } from '../cli/progressLine.ts';

export interface PictureSettings {
  readonly widthPx: number;
  readonly samples: number;
  readonly seed: number;
}

export interface Pictures {
  /** The frame as traced, smoothed and developed; the same picture again when asked twice. */
  ofFrame(frameSet: FrameSet): Promise<FramePicture>;
  /** Several moments of one scene averaged into one PNG; the samples are shared among them. */
  ofMoments(scenes: readonly FrameScene[], what: string): Promise<Uint8Array>;
  /** Lets the tracing threads go. */
  dispose(): void;
}

const MAX_DEPTH = 24;

/** Traces on all cores; the threads start with the first picture and stay until `dispose`. */
export function createPictures({ widthPx, samples, seed }: PictureSettings): Pictures {
  const known = new Map<FrameSet, FramePicture>();
  const pool = createTracePool({ workerCount: Math.max(1, availableParallelism()), spawn: nodePort });
  const line = createProgressLine(process.stderr);

  const sizeOf = ({ camera }: FrameScene) => ({
    widthPx,
    heightPx: Math.max(1, Math.round((widthPx * camera.sensorHeightMm) / camera.sensorWidthMm)),
  });

  async function trace(scene: FrameScene, samplesPerPixel: number, ownSeed: number, what: string): Promise<LitFilm> {
    const size = sizeOf(scene);
    const gains = layerGains(scene.fixtures);
    const startedMs = performance.now();
    const job: TraceJob = {
      world: compileWorld(buildSet(scene)),
      view: cameraView(scene.camera, size.widthPx / size.heightPx),
      ...size,
      seed: ownSeed,
      samplesPerPixel,
      maxDepth: MAX_DEPTH,
      layerGains: gains,
    };
    const film = await new Promise<Film>((resolve, reject) => {
      pool.start(job, {
        onProgress: (_film, { samplesDone }) => {
          const elapsedS = (performance.now() - startedMs) / 1000;
          line.show(`${what}: ${samplesDone} of ${samplesPerPixel} samples, ${elapsedS.toFixed(0)} s`, elapsedS);
        },
        onDone: resolve,
        onError: reject,
      });
    });
    line.end();
    return { film: denoiseFilm(film, gains), layerGains: gains };
  }

  return {
    dispose: () => pool.dispose(),
    async ofFrame(frameSet) {
      const made = known.get(frameSet);
      if (made) return made;
      const { scene, frame } = frameSet;
      const png = developedPng([await trace(scene, samples, seed, frame.name)], scene.camera);
      const picture = { frameSet, png, ...sizeOf(scene) };
      known.set(frameSet, picture);
      return picture;
    },
    async ofMoments(scenes, what) {
      const each = Math.max(1, Math.ceil(samples / scenes.length));
      const exposures: LitFilm[] = [];
      for (const [i, scene] of scenes.entries()) exposures.push(await trace(scene, each, seed + i, what));
      return developedPng(exposures, scenes[0].camera);
    },
  };
}
