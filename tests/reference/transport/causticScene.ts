import type { CameraView } from '../../../src/camera/view.ts';
import { fromAim } from '../../../src/core/rigid.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import type { SetModel } from '../../../src/scene/setModel.ts';
import { compileWorld, createTracerFor, traceTile } from '../../../src/transport/index.ts';
import {
  BLACK,
  CLEAR,
  cylinderShapes,
  levelSquare,
  matte,
  mediumVolume,
  setOf,
  sphereShape,
  surfaceOf,
} from '../../helpers/surfaces.ts';

/** A solid cylinder of coloured "drink" (n 1.333) on a matte table, and one lamp that throws its light through it. */
export function causticSet(lamp: 'panel' | 'bulb'): SetModel {
  const drink = cylinderShapes(0.03, 0.0005, 0.1).map((shape, i) =>
    surfaceOf('drink', shape, CLEAR, { role: `side ${i}`, backVolume: 'drink' }),
  );
  const table = surfaceOf('table', levelSquare([0, 0, 0], 2, 'up'), matte(0.5));
  const at: Vec3 = [-0.5, 0.3, 0];
  const light: OpticalSurface =
    lamp === 'panel'
      ? surfaceOf(
          'lamp',
          { type: 'quad', originM: [-0.1, -0.1, 0], edgeUM: [0.2, 0, 0], edgeVM: [0, 0.2, 0] },
          BLACK,
          { emission: { fixtureId: 'lamp', axialLuminanceNits: 1000, profile: { type: 'lambert' } } },
          fromAim(at, [0, 0.05, 0]),
        )
      : surfaceOf(
          'lamp',
          sphereShape(0.01),
          BLACK,
          { emission: { fixtureId: 'lamp', axialLuminanceNits: 100_000, profile: { type: 'lambert' } } },
          fromAim(at, [0, 0.3, 1]),
        );
  return setOf([...drink, table, light], [mediumVolume('drink', 1.333, [1, 4, 12])]);
}

/** Looks straight down on 0.24 x 0.16 m of the table, from the glass's foot away from the lamp. */
const overhead: CameraView = {
  originM: [0.14, 1, 0],
  right: [1, 0, 0],
  up: [0, 0, -1],
  forward: [0, -1, 0],
  tanHalfWidth: 0.1,
  tanHalfHeight: 0.08,
  apertureRadiusM: 0,
  focusDistanceM: 1,
};

export interface CausticReading {
  readonly mean: Vec3;
  /** Standard error of the mean, from the spread of pixels' samples (an upper bound). */
  readonly standardError: number;
  readonly seconds: number;
}

export function readCaustic(set: SetModel, samples: number, photonsPerPass: number, seed = 3): CausticReading {
  const world = compileWorld(set, { rawColour: true });
  const [widthPx, heightPx] = [40, 32];
  const tracer = createTracerFor({
    world,
    view: overhead,
    widthPx,
    heightPx,
    seed,
    samplesPerPixel: samples,
    maxDepth: 32,
    photonsPerPass,
    layerGains: Float32Array.of(1, 1, 1),
  });
  const start = performance.now();
  const tile = traceTile(tracer, 1, { x: 0, y: 0, widthPx, heightPx, firstSample: 0, samples });
  const seconds = (performance.now() - start) / 1000;
  const n = widthPx * heightPx;
  const mean = [0, 0, 0];
  let variance = 0;
  for (let i = 0; i < n; i++) {
    for (let c = 0; c < 3; c++) mean[c] += tile.layerSums[i * 3 + c] / samples / n;
    const l = tile.luminanceSum[i] / samples;
    variance += Math.max(0, tile.luminanceSquareSum[i] / samples - l * l) / samples;
  }
  return { mean: [mean[0], mean[1], mean[2]], standardError: Math.sqrt(variance) / n, seconds };
}
