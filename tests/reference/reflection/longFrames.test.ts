import { describe, expect, it } from 'vitest';
import { checkAgainstTrace, traceForCheck } from '../../../bench/reflections/checkAgainstTrace.ts';
import { traceNamedImages } from '../../../bench/reflections/namedImages.ts';
import { randomFrame } from '../../../bench/reflections/randomSetup.ts';
import { createCheckInput } from '../../../src/analysis/index.ts';
import { cameraView } from '../../../src/camera/projection.ts';
import { luminanceFromRec2020 } from '../../../src/core/color/spaces.ts';
import { layerGains } from '../../../src/fixtures/gain.ts';
import type { Finish } from '../../../src/materials/finish.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import {
  addTile,
  compileWorld,
  composeFilm,
  createFilm,
  createTracerFor,
  traceTile,
} from '../../../src/transport/index.ts';
import { camera, glossSheet, scene, tonic } from '../../analysis/helpers/scenes.ts';

/** The panel shows in the sheet, which makes most of the light in the frame and little of the noise. */
const WITH_PANEL_IN_SHEET = { positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 };

/** The same finish with everything taken away that scatters. */
function withoutScatter(finish: Finish): Finish {
  if (finish.type === 'matte' || finish.type === 'translucent') return { type: 'black' };
  return finish.type === 'gloss' ? { ...finish, reflectanceRgb: [0, 0, 0] } : finish;
}

describe('mirror-like images told apart', () => {
  // Reference: the program's own tracer on the same set, in which nothing scatters: all light in the frame is then images.
  it.each([0, 0.12])('add up to the traced frame of a set without matte surfaces, coat of alpha %f', (roughness) => {
    const finish: Finish = { type: 'gloss', reflectanceRgb: [0, 0, 0], coatIndex: 1.49, roughness };
    const frame = scene({ pieces: [glossSheet({ finish }), tonic()], camera: camera(WITH_PANEL_IN_SHEET) });
    const set = buildSet(frame);
    const world = compileWorld({
      ...set,
      surfaces: set.surfaces.map((surface) => ({ ...surface, finish: withoutScatter(surface.finish) })),
    });
    const view = { ...cameraView(frame.camera), apertureRadiusM: 0 };
    const gains = layerGains(frame.fixtures);
    const [widthPx, heightPx, samples] = [48, 32, 48];
    const film = createFilm(widthPx, heightPx, world.layerIds);
    const job = { world, view, widthPx, heightPx, seed: 1, samplesPerPixel: samples, maxDepth: 24, layerGains: gains };
    const tile = { x: 0, y: 0, widthPx, heightPx, firstSample: 0, samples };
    addTile(film, traceTile(createTracerFor(job), world.layerIds.length, tile));
    const rgb = composeFilm(film, gains);
    let traced = 0;
    for (let i = 0; i < rgb.length; i += 3) traced += luminanceFromRec2020([rgb[i], rgb[i + 1], rgb[i + 2]]);
    const images = traceNamedImages({
      world,
      view,
      widthPx,
      heightPx,
      samples,
      seed: 1,
      layerGains: gains,
      leastShare: 1e-6,
      mostEvents: 24,
    });
    expect(images.isLamp.includes(1)).toBe(false);
    let named = 0;
    for (const { nits } of images.images) for (const value of nits) named += value;
    expect(named).toBeGreaterThan(0);
    // Glints in the ice carry the noise: about a fiftieth of all light at 48 samples of 1536 pixels.
    expect(named / traced).toBeGreaterThan(0.96);
    expect(named / traced).toBeLessThan(1.04);
  });
});

describe('the reflection check against traced frames of random sets', () => {
  // Reference: seeded path tracing of the whole set (bench/reflections.bench.ts runs all of them).
  it.each([
    { seed: 2, least: 5 },
    { seed: 27, least: 1 },
  ])('finds at least $least reflections of set $seed, misses none and makes none up', ({ seed, least }) => {
    const input = createCheckInput(randomFrame(seed).scene);
    const frame = traceForCheck(input, { seed: 1, frameSamples: 16, imageSamples: 16 });
    const all = checkAgainstTrace(input, frame);
    const of = (verdict: string) => all.filter((c) => c.verdict === verdict).map(({ id }) => id);
    expect(of('missed')).toEqual([]);
    expect(of('false')).toEqual([]);
    expect(of('found').length).toBeGreaterThanOrEqual(least);
  });
});

describe('random sets', () => {
  it('are the same for the same seed, and valid', () => {
    expect(randomFrame(11).setup).toEqual(randomFrame(11).setup);
    expect(randomFrame(11).scene.pieces.length).toBeGreaterThanOrEqual(3);
  });
});
