import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../../src/camera/projection.ts';
import { buildUpSteps } from '../../../src/deliverables/traced/buildUpSteps.ts';
import { mergeMoments } from '../../../src/deliverables/traced/mergeMoments.ts';
import { createScenePictures } from '../../../src/deliverables/traced/scenePictures.ts';
import { blurPx, turnFigures } from '../../../src/deliverables/video/turnFigures.ts';
import { blurStepsFor, planTurnFilm, traceTurn } from '../../../src/deliverables/video/turnFilm.ts';
import { drawRunOut, findHighlight, runOutLines } from '../../../src/deliverables/video/turnMarks.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { placePiece } from '../../../src/scene/turntable.ts';
import { FEATURE_WORDS, type Film } from '../../../src/transport/contracts.ts';
import { composeFilm } from '../../../src/transport/cpu/film.ts';
import { openFrames } from '../helpers/openFrames.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const [wide, turn] = openFrames(studioSetup());
const film = (widthPx: number, heightPx: number, samples: number, nits: (p: number) => number, layers = 1): Film => {
  const pixels = widthPx * heightPx;
  return {
    widthPx,
    heightPx,
    layerIds: Array.from({ length: layers }, (_, i) => `light ${i}`),
    layers: Array.from({ length: layers }, () =>
      Float32Array.from({ length: pixels * 3 }, (_, i) => samples * nits(Math.floor(i / 3))),
    ),
    samples: new Uint32Array(pixels).fill(samples),
    features: new Float32Array(pixels * FEATURE_WORDS),
    luminanceSum: Float32Array.from({ length: pixels }, (_, p) => samples * nits(p)),
    luminanceSquareSum: Float32Array.from({ length: pixels }, (_, p) => samples * nits(p) ** 2),
  };
};

describe('an exposure of several moments', () => {
  it('counts each for an equal part of the time, however many samples it had: 100, 200 and 600 make 300 cd/m2', () => {
    const merged = mergeMoments([film(3, 2, 1, () => 100), film(3, 2, 64, () => 200), film(3, 2, 8, () => 600)]);
    expect(merged.samples[0]).toBe(73);
    for (const value of composeFilm(merged, Float32Array.of(1, 1, 1))) expect(value).toBeCloseTo(300, 3);
  });

  it('spreads a line that crosses the picture evenly over the way that it goes', () => {
    // A bright column that moves one pixel from moment to moment: four pixels share its light.
    const merged = mergeMoments([0, 1, 2, 3].map((x) => film(8, 1, 4, (p) => (p === x + 2 ? 80 : 0))));
    const row = composeFilm(merged, Float32Array.of(1, 1, 1)).filter((_, i) => i % 3 === 0);
    expect([...row]).toEqual([0, 0, 20, 20, 20, 20, 0, 0]);
  });

  it('takes so many moments that nothing moves more than half a pixel from one to the next', () => {
    const figures = turnFigures(turn.scene, 3840);
    if (!figures) throw new Error('the hero turns');
    // Blur is 2 pi r n t px/m; r 35.4 mm, 6 rpm, 1/48 s.
    expect(figures.blurPx).toBeCloseTo(blurPx(0.0354, 6, 1 / 48, figures.pxPerM), 9);
    const steps = blurStepsFor(turn, 3840);
    expect(figures.blurPx / steps).toBeLessThanOrEqual(0.5);
    expect(figures.blurPx / (steps - 1)).toBeGreaterThan(0.5);
    expect(blurStepsFor(wide, 64)).toBe(1);
  });
});

describe('traceTurn', () => {
  it('hands out every picture of the plan in order, traced over the time that the shutter is open', async () => {
    const angles: number[] = [];
    const made = planTurnFilm(turn, { widthPx: 24, frames: 6, blurSteps: 3 });
    if (!made.ok) throw new Error(made.error);
    const scenes: FrameScene[] = [];
    const pictures = createScenePictures(
      async ({ widthPx, heightPx, layerGains }) => film(widthPx, heightPx, 2, () => 50, layerGains.length / 3),
      { widthPx: 24, samples: 9, seed: 1, smooth: false },
    );
    const spied = {
      ...pictures,
      ofMoments: (moments: readonly FrameScene[], what: string) => {
        scenes.push(...moments);
        return pictures.ofMoments(moments, what);
      },
    };
    await traceTurn(turn, made.value, spied, { widthPx: 24, frames: 6 }, ({ index, image }) => {
      angles.push(index);
      expect([image.widthPx, image.heightPx]).toEqual([24, 16]);
    });
    expect(angles).toEqual([0, 1, 2, 3, 4, 5]);
    // 36 degrees a second for 1/48 s is 0.75 degrees, in the middles of three parts.
    expect(scenes.slice(3, 6).map(({ turntableAngleDeg }) => turntableAngleDeg - 60)).toEqual(
      [0.125, 0.375, 0.625].map((deg) => expect.closeTo(deg, 9)),
    );
    // Six pictures of a turn of ten seconds play at 0.6 a second.
    expect(made.value.playedPerS).toBeCloseTo(0.6, 9);
  });

  it('says what to mend where nothing turns', () => {
    const still = { ...wide, scene: { ...wide.scene, turntable: undefined } };
    expect(planTurnFilm(still, { widthPx: 24, frames: 6 })).toMatchObject({
      ok: false,
      error: expect.stringContaining('turntable'),
    });
  });
});

describe('marks in a turn', () => {
  const hero = turn.set.boundsByRecord.get('piece:glass');
  if (!hero) throw new Error('no hero');

  it('finds the highlight where the hero is brightest', () => {
    const [w, h] = [120, 80];
    const at = projectPoint(turn.view, [0.01, 0.14, 0.03]);
    if (!at) throw new Error('behind the lens');
    const [x, y] = [Math.floor(at.u * w), Math.floor(at.v * h)];
    const rgb = new Float32Array(w * h * 3).fill(5);
    for (let dy = -2; dy <= 2; dy++)
      for (let dx = -2; dx <= 2; dx++) rgb.fill(900, 3 * ((y + dy) * w + x + dx), 3 * ((y + dy) * w + x + dx) + 3);
    // Far brighter, yet outside the hero: not its highlight.
    rgb.fill(9000, 0, 30);
    const found = findHighlight({ widthPx: w, heightPx: h, rgb }, turn.view, hero);
    expect(Math.abs((found?.u ?? 0) - at.u) * w).toBeLessThan(1);
    expect(Math.abs((found?.v ?? 0) - at.v) * h).toBeLessThan(1);
  });

  it('shows the swing as wide as the run-out makes it: twice 0.4 mm at the scale of the subject', () => {
    const lines = runOutLines(turn.scene, turn.view, hero, 30);
    if (!lines) throw new Error('the hero turns');
    const depthM = projectPoint(turn.view, [0, hero.minM[1], 0])?.depthM ?? 1;
    const swingM = (lines.right[0].u - lines.left[0].u) * 2 * turn.view.tanHalfWidth * depthM;
    expect(swingM).toBeCloseTo(0.0008, 5);
    // The line now is where the set itself has the hero's axis.
    const piece = turn.scene.pieces.find(({ id }) => id === 'piece:glass');
    if (!piece) throw new Error('no hero');
    const placed = placePiece(piece, turn.scene.turntable, 30);
    const axis = projectPoint(turn.view, [placed.translationM[0], hero.minM[1], placed.translationM[2]]);
    expect(lines.now[0].u).toBeCloseTo(axis?.u ?? 0, 9);
  });

  it('draws the lines into the picture and nothing else', () => {
    const lines = runOutLines(turn.scene, turn.view, hero, 0);
    if (!lines) throw new Error('the hero turns');
    const image = { widthPx: 300, heightPx: 200, rgb: new Uint8Array(300 * 200 * 3) };
    drawRunOut(image, lines);
    const changed = [...image.rgb.keys()].filter((k) => k % 3 === 0 && image.rgb[k] > 0).map((k) => (k / 3) % 300);
    expect(changed.length).toBeGreaterThan(50);
    for (const x of changed) expect(Math.abs(x - 300 * lines.now[0].u)).toBeLessThan(8);
  });
});

describe('build-up of the light', () => {
  it('shows each light alone and together with those before it, all of them last', () => {
    const steps = buildUpSteps(wide);
    const lit = wide.scene.fixtures.filter(({ on }) => on);
    expect(steps).toHaveLength(2 * lit.length - 1);
    expect(steps.slice(0, 3).map(({ name }) => name)).toEqual(['1 Key alone', '2 Top light alone', '1 + 2']);
    const last = steps[steps.length - 1];
    expect(last.name).toBe('1 + 2 + 3 + 4 + 5 + 6, as lit');
    expect(last.fixtures).toEqual(wide.scene.fixtures);
    expect(steps[1].fixtures.filter(({ on }) => on).map(({ id }) => id)).toEqual(['fixture:top']);
  });
});
