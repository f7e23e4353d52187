import { describe, expect, it } from 'vitest';
import { createTracer } from '../../../src/analysis/frameStudy.ts';
import { createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import { createScatteredLight } from '../../../src/analysis/light/scatteredLight.ts';
import { rayThrough } from '../../../src/camera/projection.ts';
import { luminanceFromRec2020 } from '../../../src/core/color/spaces.ts';
import type { Finish } from '../../../src/materials/finish.ts';
import type { Piece } from '../../../src/scene/records.ts';
import { createPathTracer } from '../../../src/transport/cpu/pathTracer.ts';
import { camera, fixture, glossSheet, panel, scene, tonic } from '../../analysis/helpers/scenes.ts';

/*
 * The checks and the traced frame read one World: what the deterministic walk says of a place in the frame must be the
 * mean of the path tracer there, for light that both follow (direct light and chains of mirror-like events).
 */
const WIDE = camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 });
const SAMPLES = 4000;

function compare(pieces: readonly Piece[], u: number, v: number, maxDepth: number) {
  const input = createCheckInput(
    scene({
      pieces: [...pieces],
      fixtures: [
        panel(),
        fixture({
          kind: 'spot',
          id: 'key',
          name: 'Key',
          positionM: [-0.8, 1, 0.6],
          aimM: [0, 0, 0],
          beamAngleDeg: 40,
          cctK: 3200,
          output: { unit: 'luxAtDistance', value: 4000, distanceM: 1.4 },
        }),
      ],
      camera: WIDE,
    }),
  );
  const study = createFrameStudy(input);
  const scattered = createScatteredLight(study.light, study.table, study.patches(), { cellPerDistance: 0 });
  const { tree } = createTracer(input, study.light, study.table, scattered, { blackNits: 0 });
  const { originM, direction } = rayThrough(input.view, u, v);
  tree.follow(originM, direction, () => {});
  const checked = luminanceFromRec2020([tree.totalRgb[0], tree.totalRgb[1], tree.totalRgb[2]]);

  const tracer = createPathTracer({
    world: input.query.world,
    view: input.view,
    widthPx: 8,
    heightPx: 8,
    seed: 7,
    maxDepth,
    layerGains: input.layerGains,
  });
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < SAMPLES; i++) {
    tracer.traceRay(...originM, ...direction, 3, i);
    const y = tracer.luminance[0];
    sum += y;
    squares += y * y;
  }
  const traced = sum / SAMPLES;
  const error = Math.sqrt(Math.max(0, squares / SAMPLES - traced * traced) / SAMPLES);
  return { checked, traced, error };
}

const sheet = (finish: Finish): Piece => glossSheet({ finish });
const GREY: [number, number, number] = [0.4, 0.3, 0.2];

describe('the walk of the checks and the path tracer agree', () => {
  it.each<[string, Finish, number, number]>([
    ['matte paper', { type: 'matte', reflectanceRgb: GREY }, 0.3, 0.7],
    ['the base under a smooth coat', { type: 'gloss', reflectanceRgb: GREY, coatIndex: 1.49, roughness: 0 }, 0.1, 0.95],
    ['a panel in a smooth coat', { type: 'gloss', reflectanceRgb: GREY, coatIndex: 1.49, roughness: 0 }, 0.5, 0.55],
    [
      'a panel blurred by a slightly rough coat',
      { type: 'gloss', reflectanceRgb: GREY, coatIndex: 1.49, roughness: 0.08 },
      0.45,
      0.6,
    ],
    ['the sheen of a rough metal', { type: 'metal', reflectanceRgb: [0.9, 0.7, 0.5], roughness: 0.35 }, 0.45, 0.6],
  ])('%s: within 3 % and 4 standard errors', (_, finish, u, v) => {
    const { checked, traced, error } = compare([sheet(finish)], u, v, 1);
    expect(traced).toBeGreaterThan(10);
    expect(Math.abs(checked - traced)).toBeLessThan(0.03 * traced + 4 * error);
  });

  it.each([
    [0.5, 0.4],
    [0.49, 0.45],
    [0.48, 0.38],
  ])('matte paper behind a filled glass, at (%f, %f): within 3 %% and 4 standard errors', (u, v) => {
    // Eight boundaries and two media on the way; the paper there lies outside the shadow and the glow of the drink.
    const paper = sheet({ type: 'matte', reflectanceRgb: GREY });
    const { checked, traced, error } = compare([paper, tonic({ ice: undefined })], u, v, 12);
    const bare = compare([paper], u, v, 12);
    expect(Math.abs(checked - traced)).toBeLessThan(0.03 * traced + 4 * error);
    expect(checked).toBeLessThan(0.99 * bare.checked);
  });
});
