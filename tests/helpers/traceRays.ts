import type { CameraView } from '../../src/camera/view.ts';
import { normalize, type Vec3 } from '../../src/core/vec3.ts';
import type { SetModel } from '../../src/scene/setModel.ts';
import { type CompileOptions, compileWorld, createPathTracer } from '../../src/transport/index.ts';

const NO_VIEW: CameraView = {
  originM: [0, 0, 0],
  right: [1, 0, 0],
  up: [0, 1, 0],
  forward: [0, 0, -1],
  tanHalfWidth: 1,
  tanHalfHeight: 1,
  apertureRadiusM: 0,
  focusDistanceM: 1,
};

export interface RayEstimate {
  /** Mean radiance, working RGB, all layers. */
  readonly rgb: Vec3;
  /** Standard error of the first channel. */
  readonly error: number;
  readonly dropped: number;
}

/** Mean radiance along one ray of a set: `samples` seeded paths. Colours are taken as they stand. */
export function traceRays(
  set: SetModel,
  originM: Vec3,
  direction: Vec3,
  samples: number,
  options: CompileOptions & { maxDepth?: number; seed?: number } = {},
): RayEstimate {
  const world = compileWorld(set, { rawColour: true, ...options });
  const tracer = createPathTracer({
    world,
    view: NO_VIEW,
    widthPx: 1,
    heightPx: 1,
    seed: options.seed ?? 1,
    maxDepth: options.maxDepth ?? 64,
    layerGains: new Float32Array(world.layerIds.length * 3).fill(1),
  });
  const d = normalize(direction);
  const sum = [0, 0, 0];
  let squares = 0;
  for (let i = 0; i < samples; i++) {
    tracer.traceRay(originM[0], originM[1], originM[2], d[0], d[1], d[2], 5, i);
    let first = 0;
    for (let l = 0; l < world.layerIds.length; l++) {
      for (let c = 0; c < 3; c++) sum[c] += tracer.sample[l * 3 + c];
      first += tracer.sample[l * 3];
    }
    squares += first * first;
  }
  const mean = sum[0] / samples;
  const variance = Math.max(0, squares / samples - mean * mean);
  return {
    rgb: [mean, sum[1] / samples, sum[2] / samples],
    error: Math.sqrt(variance / samples),
    dropped: tracer.dropped[0],
  };
}
