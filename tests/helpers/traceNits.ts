import type { CheckInput } from '../../src/analysis/index.ts';
import { rayThrough } from '../../src/camera/projection.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import { createPathTracer } from '../../src/transport/cpu/pathTracer.ts';

/** Mean luminance along one ray by the path tracer, cd/m2 under the gains, and its standard error. */
export function traceNits(
  input: CheckInput,
  originM: Vec3,
  direction: Vec3,
  { samples = 3000, maxDepth = 10, seed = 7 }: { samples?: number; maxDepth?: number; seed?: number } = {},
): { nits: number; error: number } {
  const tracer = createPathTracer({
    world: input.query.world,
    view: input.view,
    widthPx: 8,
    heightPx: 8,
    seed,
    maxDepth,
    layerGains: input.layerGains,
  });
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < samples; i++) {
    tracer.traceRay(...originM, ...direction, 3, i);
    const y = tracer.luminance[0];
    sum += y;
    squares += y * y;
  }
  const nits = sum / samples;
  return { nits, error: Math.sqrt(Math.max(0, squares / samples - nits * nits) / samples) };
}

/** The same through a place in the frame. */
export function traceAt(input: CheckInput, u: number, v: number, options = {}): { nits: number; error: number } {
  const { originM, direction } = rayThrough(input.view, u, v);
  return traceNits(input, originM, direction, options);
}

/** Stops between two traced figures, and the standard error of that in stops. */
export function tracedStops(
  over: { nits: number; error: number },
  under: { nits: number; error: number },
): { stops: number; error: number } {
  return {
    stops: Math.log2(over.nits / under.nits),
    error: (over.error / over.nits + under.error / under.nits) / Math.LN2,
  };
}
