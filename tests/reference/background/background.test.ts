import { describe, expect, it } from 'vitest';
import { createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import { projectPoint } from '../../../src/camera/projection.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { block, camera, fixture, panel, piece, scene } from '../../analysis/helpers/scenes.ts';
import { traceAt, tracedStops } from '../../helpers/traceNits.ts';

const WALL = (patch: Record<string, unknown> = {}) =>
  piece({
    kind: 'wall',
    id: 'wall',
    name: 'Wall',
    positionM: [0, -2, -1],
    widthM: 6,
    heightM: 4,
    finish: { type: 'matte', reflectanceRgb: [0.5, 0.5, 0.5] },
    ...patch,
  });
const backgroundOf = (of: FrameScene) => {
  const input = createCheckInput(of);
  const study = createFrameStudy(input);
  const light = study.background();
  if (!light) throw new Error('no background');
  return { input, light };
};

describe('a wall under one small light in front of its middle', () => {
  it.each([
    ['panel', 4],
    ['bulb', 3],
  ] as const)(
    '%s: illuminance falls as cos^%f of the angle (CIE S 017: inverse square, cosine), within .01 stop',
    (kind, power) => {
      // At 10, 20 and 30 degrees cos^4 is .0883, .3590 and .8301 stop down (references: .940602, .779728, .5625).
      const lamp =
        kind === 'panel'
          ? panel({
              positionM: [0, 0, 1],
              aimM: [0, 0, 0],
              widthM: 0.04,
              heightM: 0.04,
              output: { unit: 'lumens', value: 5000 },
            })
          : fixture({
              kind: 'bulb',
              id: 'bulb',
              name: 'Bulb',
              positionM: [0, 0, 1],
              aimM: [0, 0, 0],
              diameterM: 0.04,
              output: { unit: 'lumens', value: 5000 },
            });
      const { light } = backgroundOf(
        scene({
          pieces: [WALL()],
          subject: { pieceId: 'gone', meterPointM: [0, 0, 0] },
          fixtures: [lamp],
          // The lens stands over the light and looks past it.
          camera: camera({ positionM: [0, 0.3, 3], aimM: [0, 0, -1], focalLengthMm: 50, focusDistanceM: 3 }),
        }),
      );
      const peak = light.place.cells.reduce((most, _, i) => (light.lux[i] > light.lux[most] ? i : most), 0);
      const cosOf = (i: number): number => {
        const [x, y, z] = light.place.cells[i].pointM;
        return (1 - z) / Math.hypot(x, y, 1 - z);
      };
      let checked = 0;
      light.place.cells.forEach((_, i) => {
        const expected = power * Math.log2(cosOf(i) / cosOf(peak));
        expect(Math.abs(Math.log2(light.lux[i] / light.lux[peak]) - expected)).toBeLessThan(0.01);
        if (expected < -0.3) checked++;
      });
      expect(checked).toBeGreaterThan(10);
      expect(light.hotSpot.u).toBeCloseTo(0.5, 1);
    },
  );

  it('fits the gradient of light that falls by 2^(-x): one stop a metre to the left, to a tenth', () => {
    // A long way off to one side the light is nearly linear in log; here the slope is taken from the cells themselves.
    const { light, input } = backgroundOf(
      scene({
        pieces: [WALL()],
        subject: { pieceId: 'gone', meterPointM: [0, 0, 0] },
        fixtures: [
          panel({
            positionM: [2.4, 0, 0.6],
            aimM: [0, 0, -1],
            widthM: 0.1,
            heightM: 0.1,
            output: { unit: 'lumens', value: 9000 },
          }),
        ],
        camera: camera({ positionM: [0, 0, 3], aimM: [0, 0, -1], focalLengthMm: 50, focusDistanceM: 3 }),
      }),
    );
    // Bright to the right: direction 0.
    expect(Math.abs(light.gradient.directionDeg)).toBeLessThan(5);
    const at = (x: number): number => {
      const p = projectPoint(input.view, [x, 0, -0.99]);
      const cell = light.place.cells.reduce((best, c) =>
        Math.hypot(c.u - (p?.u ?? 0), c.v - (p?.v ?? 0)) < Math.hypot(best.u - (p?.u ?? 0), best.v - (p?.v ?? 0))
          ? c
          : best,
      );
      return Math.log2(light.nits[light.place.cells.indexOf(cell)]);
    };
    const [left, right] = [light.place.cells[0].pointM[0], -light.place.cells[0].pointM[0]];
    expect(light.gradient.stops / (at(right) - at(left))).toBeCloseTo(1, 0);
    expect(Math.abs(light.gradient.stops - (at(right) - at(left)))).toBeLessThan(0.35);
  });
});

describe('the background against the traced frame', () => {
  const sweep = piece({
    kind: 'sweep',
    id: 'sweep',
    name: 'Paper',
    positionM: [0, 0, 0.5],
    widthM: 1.8,
    floorDepthM: 1,
    coveRadiusM: 0.3,
    heightM: 1.5,
    finish: { type: 'matte', reflectanceRgb: [0.8, 0.8, 0.8] },
  });
  it.each<[string, FrameScene['fixtures']]>([
    [
      'a softbox above',
      [
        fixture({
          kind: 'softbox',
          id: 'top',
          name: 'Top',
          positionM: [0.2, 1.2, 0.5],
          aimM: [0, 0, -0.3],
          widthM: 0.6,
          heightM: 0.6,
          output: { unit: 'luxAtDistance', value: 2000, distanceM: 1.2 },
        }),
      ],
    ],
    [
      'a spot from the side and a panel',
      [
        fixture({
          kind: 'spot',
          id: 'side',
          name: 'Side',
          positionM: [-0.9, 0.7, 0.5],
          aimM: [0.1, 0.3, -0.8],
          beamAngleDeg: 50,
          output: { unit: 'luxAtDistance', value: 3000, distanceM: 1.5 },
        }),
        panel({
          positionM: [0.8, 1, 0.6],
          aimM: [0, 0.2, -0.5],
          output: { unit: 'luxAtDistance', value: 900, distanceM: 1 },
        }),
      ],
    ],
  ])(
    'paper sweep under %s: spread within .05 stop at two standard errors, bounce among the paper included',
    (_, fixtures) => {
      const { input, light } = backgroundOf(
        scene({
          pieces: [sweep, block({ positionM: [0, 0.0002, 0] })],
          fixtures,
          camera: camera({ positionM: [0, 0.35, 1.6], aimM: [0, 0.2, 0], focalLengthMm: 50, focusDistanceM: 1.6 }),
        }),
      );
      expect(light.place.recordId).toBe('sweep');
      const order = Array.from(light.nits.keys()).sort((a, b) => light.nits[a] - light.nits[b]);
      const [dark, bright] = [order[2], order[order.length - 3]].map((i) => light.place.cells[i]);
      const checked = Math.log2(light.nits[order[order.length - 3]] / light.nits[order[2]]);
      const options = { samples: 4000, maxDepth: 12 };
      const { stops, error } = tracedStops(
        traceAt(input, bright.u, bright.v, options),
        traceAt(input, dark.u, dark.v, options),
      );
      expect(checked).toBeGreaterThan(0.4);
      expect(Math.abs(checked - stops)).toBeLessThan(0.05 + 2 * error);
      expect(error).toBeLessThan(0.03);
    },
  );
});
