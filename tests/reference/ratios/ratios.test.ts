import { describe, expect, it } from 'vitest';
import { checkFrame, createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import { measureCells } from '../../../src/analysis/light/surfaceLight.ts';
import { findHeroCells } from '../../../src/analysis/places/heroCells.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { block, camera, fixture, matteSheet, panel, piece, scene } from '../../analysis/helpers/scenes.ts';
import { traceAt } from '../../helpers/traceNits.ts';

const bulb = (id: string, x: number, z: number, lumens: number) =>
  fixture({
    kind: 'bulb',
    id,
    name: id,
    positionM: [x, 0.08, z],
    aimM: [0, 0, 0],
    diameterM: 0.02,
    output: { unit: 'lumens', value: lumens },
  });
const figuresOf = (of: FrameScene) =>
  checkFrame(of, { checks: ['ratios'], remedies: false }).figures.ratios as Record<string, number> & {
    shares: { fixtureId: string; subjectShare: number; backgroundShare: number }[];
  };

describe('ratios', () => {
  it.each([
    [3000, 1000, 2],
    [7000, 1000, 3],
    [1000, 1000, 1],
  ])('%f lm and %f lm from alike sides are %f stops key to fill, log2((K + F) / F)', (key, fill, stops) => {
    // Both bulbs stand at the same angle from the axis of the dome, so it weighs them alike.
    const of = scene({
      pieces: [],
      fixtures: [bulb('key', -0.6, 0.8, key), bulb('fill', 0.6, 0.8, fill)],
      camera: camera({ positionM: [0, 0.08, 1.4], aimM: [0, 0.08, 0] }),
      subject: { pieceId: 'gone', meterPointM: [0, 0.08, 0] },
    });
    expect(figuresOf(of).keyToFillStops).toBeCloseTo(stops, 4);
  });

  it('reads twice the distance as two stops: subject .5 m, wall 1 m under a bulb between lens and subject', () => {
    // E = I / d^2 on the wall square on; on the dome, pointed at lens and bulb alike, the same law.
    const of = scene({
      pieces: [
        piece({
          kind: 'wall',
          id: 'wall',
          name: 'Wall',
          positionM: [0, -0.92, -0.5],
          widthM: 0.2,
          heightM: 2,
          finish: { type: 'matte', reflectanceRgb: [0, 0, 0] },
        }),
      ],
      fixtures: [bulb('key', 0, 0.5, 3000)],
      camera: camera({ positionM: [0, 0.08, 6], aimM: [0, 0.08, 0], focalLengthMm: 1200, focusDistanceM: 6 }),
      subject: { pieceId: 'gone', meterPointM: [0, 0.08, 0] },
    });
    expect(Math.abs(figuresOf(of).subjectToBackgroundStops - 2)).toBeLessThan(0.03);
  });

  it('subject over background in luminance is what the traced frame shows, within .05 stop at two standard errors', () => {
    const of = scene({
      pieces: [
        matteSheet(0.5),
        piece({
          kind: 'wall',
          id: 'wall',
          name: 'Wall',
          positionM: [0, 0, -0.7],
          widthM: 2.4,
          heightM: 1.2,
          finish: { type: 'matte', reflectanceRgb: [0.4, 0.4, 0.4] },
        }),
        block({ widthM: 0.1, depthM: 0.1, heightM: 0.3 }),
      ],
      fixtures: [
        panel({ id: 'key', name: 'Key', positionM: [-0.9, 0.9, 1], aimM: [0, 0.1, 0] }),
        fixture({
          kind: 'spot',
          id: 'wash',
          name: 'Wash',
          positionM: [0.9, 0.5, 0.2],
          aimM: [0.1, 0.4, -0.7],
          beamAngleDeg: 50,
          output: { unit: 'luxAtDistance', value: 2000, distanceM: 1.2 },
        }),
      ],
      camera: camera({ positionM: [0, 0.35, 1.4], aimM: [0, 0.15, 0], focalLengthMm: 50, focusDistanceM: 1.4 }),
    });
    const input = createCheckInput(of);
    const study = createFrameStudy(input);
    const hero = study.hero();
    const background = study.background();
    expect(hero && background).toBeTruthy();
    if (!hero || !background) return;
    // A few of the places that the check itself averages.
    const onHero = findHeroCells(input, hero, 4, 5);
    const onWall = background.place.cells.filter((_, i) => i % 9 === 0);
    const checked = Math.log2(measureCells(study, onHero).meanNits / measureCells(study, onWall).meanNits);
    const mean = (cells: readonly { u: number; v: number }[]) => {
      const traced = cells.map(({ u, v }) => traceAt(input, u, v, { samples: 700, maxDepth: 10 }));
      return {
        nits: traced.reduce((sum, t) => sum + t.nits, 0) / traced.length,
        error: Math.sqrt(traced.reduce((sum, t) => sum + t.error ** 2, 0)) / traced.length,
      };
    };
    const [traceHero, traceWall] = [mean(onHero), mean(onWall)];
    const traced = Math.log2(traceHero.nits / traceWall.nits);
    const error = (traceHero.error / traceHero.nits + traceWall.error / traceWall.nits) / Math.LN2;
    expect(error).toBeLessThan(0.03);
    expect(Math.abs(checked - traced)).toBeLessThan(0.05 + 2 * error);
  });
});
