import { describe, expect, it } from 'vitest';
import { createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import { measureCells } from '../../../src/analysis/light/surfaceLight.ts';
import { findHeroCells } from '../../../src/analysis/places/heroCells.ts';
import type { SeenCell } from '../../../src/analysis/study.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { block, camera, fixture, grip, panel, piece, scene } from '../../analysis/helpers/scenes.ts';
import { traceAt } from '../../helpers/traceNits.ts';

/*
 * A white paper sweep and a white card throw much of the light to and fro. The checks find that on patches; the independent path
 * tracer follows it by chance, twelve bounces deep. Both read the same places of the frame.
 */

const sweep = piece({
  kind: 'sweep',
  id: 'sweep',
  name: 'White paper',
  positionM: [0, 0, 0.5],
  widthM: 1.8,
  floorDepthM: 1,
  coveRadiusM: 0.3,
  heightM: 1.5,
  finish: { type: 'matte', reflectanceRgb: [0.82, 0.82, 0.82] },
});
const card = grip({
  kind: 'bounceCard',
  id: 'card',
  name: 'White card',
  positionM: [0.5, 0.3, 0],
  aimM: [-0.2, 0.2, -0.2],
  widthM: 0.4,
  heightM: 0.5,
});
const setOf = (light: FrameScene['fixtures'][number]): FrameScene =>
  scene({
    pieces: [sweep, block({ positionM: [0, 0.0002, 0], widthM: 0.08, depthM: 0.08, heightM: 0.2 })],
    fixtures: [light],
    grip: [card],
    camera: camera({ positionM: [0, 0.35, 1.6], aimM: [0, 0.2, 0], focalLengthMm: 50, focusDistanceM: 1.6 }),
  });

const LIGHTS: readonly { readonly name: string; readonly light: FrameScene['fixtures'][number] }[] = [
  {
    name: 'a spot',
    light: fixture({
      kind: 'spot',
      id: 'light',
      name: 'Spot',
      positionM: [-0.9, 0.8, 0.6],
      aimM: [0.1, 0.2, -0.5],
      beamAngleDeg: 60,
      output: { unit: 'luxAtDistance', value: 3000, distanceM: 1.5 },
    }),
  },
  {
    name: 'a softbox',
    light: fixture({
      kind: 'softbox',
      id: 'light',
      name: 'Softbox',
      positionM: [-0.8, 0.9, 0.5],
      aimM: [0, 0.1, -0.2],
      widthM: 0.6,
      heightM: 0.6,
      output: { unit: 'luxAtDistance', value: 2000, distanceM: 1.2 },
    }),
  },
  {
    name: 'a panel',
    light: panel({ id: 'light', name: 'Panel', positionM: [0.2, 1.2, 0.4], aimM: [0, 0.1, -0.4] }),
  },
];

const SAMPLES = { samples: 9000, maxDepth: 12 };
/** The middle of what is read at n places from darkest to brightest, ends a little inside. */
const spreadOver = (nits: Float64Array, shares: readonly number[]): number[] => {
  const order = Array.from(nits.keys()).sort((a, b) => nits[a] - nits[b]);
  return shares.map((share) => order[Math.round(share * (order.length - 1))]);
};

describe.each(LIGHTS)('a white sweep and a white card under $name', ({ light }) => {
  const input = createCheckInput(setOf(light));
  const study = createFrameStudy(input);
  const background = study.background();
  const hero = study.hero();
  if (!background || !hero) throw new Error('nothing in the frame');

  it('spread of the background as traced, within .05 stop', () => {
    const at = spreadOver(background.nits, [0.02, 0.98]);
    const [dark, bright] = at.map((i) => background.place.cells[i]);
    const [low, high] = [dark, bright].map(({ u, v }) => traceAt(input, u, v, SAMPLES));
    const traced = Math.log2(high.nits / low.nits);
    const error = Math.hypot(high.error / high.nits, low.error / low.nits) / Math.LN2;
    const checked = Math.log2(background.nits[at[1]] / background.nits[at[0]]);
    expect(error).toBeLessThan(0.02);
    expect(checked).toBeGreaterThan(0.3);
    expect(Math.abs(checked - traced)).toBeLessThan(0.05 + error);
  });

  it('fitted gradient as fitted to traced places, within .05 stop', () => {
    const cells = background.place.cells.filter((_, i) => i % 14 === 3);
    const traced = cells.map(({ u, v }) => Math.log2(traceAt(input, u, v, { samples: 1500, maxDepth: 12 }).nits));
    const checked = cells.map((cell) => Math.log2(background.nits[background.place.cells.indexOf(cell)]));
    const off = traced.map((value, i) => checked[i] - value);
    const mean = off.reduce((sum, value) => sum + value, 0) / off.length;
    // What is left once both are set to one level: slope over the frame of the difference, by least squares, and its spread.
    const slope = (of: (cell: SeenCell) => number): number => {
      const xs = cells.map(of);
      const middle = xs.reduce((sum, x) => sum + x, 0) / xs.length;
      const [xx, xy] = xs.reduce(([a, b], x, i) => [a + (x - middle) ** 2, b + (x - middle) * (off[i] - mean)], [0, 0]);
      return xy / xx;
    };
    console.log(
      light.kind,
      'slope',
      slope(({ u }) => u),
      slope(({ v }) => v),
      mean,
    );
    expect(Math.abs(slope(({ u }) => u))).toBeLessThan(0.05);
    expect(Math.abs(slope(({ v }) => v))).toBeLessThan(0.05);
    expect(Math.abs(mean)).toBeLessThan(0.05);
  });

  it('subject to background in luminance as traced, within .05 stop', () => {
    const onHero = findHeroCells(input, hero, 4, 5);
    const onPaper = background.place.cells.filter((_, i) => i % 11 === 5);
    const checked = Math.log2(measureCells(study, onHero).meanNits / measureCells(study, onPaper).meanNits);
    const mean = (cells: readonly SeenCell[]) => {
      const each = cells.map(({ u, v }) => traceAt(input, u, v, { samples: 1500, maxDepth: 12 }));
      return {
        nits: each.reduce((sum, { nits }) => sum + nits, 0) / each.length,
        error: Math.sqrt(each.reduce((sum, { error }) => sum + error ** 2, 0)) / each.length,
      };
    };
    const [subject, paper] = [mean(onHero), mean(onPaper)];
    const error = Math.hypot(subject.error / subject.nits, paper.error / paper.nits) / Math.LN2;
    const traced = Math.log2(subject.nits / paper.nits);
    expect(error).toBeLessThan(0.02);
    expect(Math.abs(checked - traced)).toBeLessThan(0.05 + error);
  });
});
