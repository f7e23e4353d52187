import { describe, expect, it } from 'vitest';
import { readDrink } from '../../../src/analysis/glass/readDrink.ts';
import { readEdges } from '../../../src/analysis/glass/readEdges.ts';
import { createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { camera, panel, scene, tonic } from '../../analysis/helpers/scenes.ts';
import { traceAt } from '../../helpers/traceNits.ts';

/** A highball before a large even panel, the lens level with the middle of the drink. */
const backlit = (absorptionPerM: readonly [number, number, number], widthM = 1.2): FrameScene =>
  scene({
    pieces: [
      tonic({
        ice: undefined,
        drink: { name: 'Tea', index: 1.336, absorptionPerM, fillFraction: 0.9, meniscusM: 0 },
        glassAbsorptionPerM: [0, 0, 0],
      }),
    ],
    fixtures: [
      panel({
        positionM: [0, 0.07, -0.8],
        aimM: [0, 0.07, 1],
        widthM,
        heightM: widthM,
        output: { unit: 'lumens', value: 9000 },
      }),
    ],
    camera: camera({ positionM: [0, 0.07, 1.2], aimM: [0, 0.07, 0], focalLengthMm: 100 }),
    subject: { pieceId: 'tonic', meterPointM: [0, 0.07, 0] },
  });
const study = (of: FrameScene) => {
  const input = createCheckInput(of);
  const made = createFrameStudy(input);
  const hero = made.hero();
  if (!hero) throw new Error('no hero');
  return { input, made, hero };
};

describe('light through a drink', () => {
  it.each([10, 30, 60])(
    'of %f per metre, through the middle: four boundaries and exp(-a d) (Fresnel; Beer-Lambert)',
    (a) => {
      const { made, hero } = study(backlit([a, a, a]));
      const drink = readDrink(made, hero);
      expect(drink).not.toBeNull();
      if (!drink) return;
      // R(1 to 1.52) = .042580 twice, R(1.52 to 1.336) twice; the drink is 63.3 mm less walls of 2 mm wide at that height.
      const outer = ((1.52 - 1) / (1.52 + 1)) ** 2;
      const inner = ((1.52 - 1.336) / (1.52 + 1.336)) ** 2;
      // The glass widens from 60 to 66 mm over .15 m; the lens looks at the middle of the liquid.
      const y = drink.centre.pointM[1];
      const widthM = 0.06 + (0.006 * y) / 0.15 - 0.004;
      const expected = (1 - outer) ** 2 * (1 - inner) ** 2 * Math.exp(-a * widthM);
      const panelNits = 9000 / (Math.PI * 1.2 * 1.2);
      expect(drink.centreNits / (panelNits * expected)).toBeCloseTo(1, 1);
      expect(Math.abs(drink.centreNits / (panelNits * expected) - 1)).toBeLessThan(0.04);
    },
  );

  it('agrees with the path tracer at four places in the liquid within .05 stop at two standard errors', () => {
    const { input, made, hero } = study(backlit([20, 35, 60]));
    const drink = readDrink(made, hero);
    const { tree } = made.tracer();
    expect(tree).toBeDefined();
    for (const k of [0.3, 0.45, 0.6, 0.8]) {
      const cells = drink?.cells ?? [];
      const cell = cells[Math.floor(k * cells.length)];
      const { nits, error } = traceAt(input, cell.u, cell.v, { samples: 1500, maxDepth: 14 });
      const [only] = [readDrink(made, hero)].map(() => cell);
      const checked = made.tracer();
      checked.tree.follow(input.view.originM, directionAt(input, only.u, only.v), () => {});
      const [r, g, b] = checked.tree.totalRgb;
      const luminance = 0.2627 * r + 0.678 * g + 0.0593 * b;
      expect(Math.abs(Math.log2(luminance / nits))).toBeLessThan(0.05 + (2 * error) / nits / Math.LN2);
    }
  });
});

const directionAt = (input: ReturnType<typeof createCheckInput>, u: number, v: number) => {
  const { view } = input;
  const x = (2 * u - 1) * view.tanHalfWidth;
  const y = (1 - 2 * v) * view.tanHalfHeight;
  const d = [0, 1, 2].map((k) => view.forward[k] + x * view.right[k] + y * view.up[k]);
  const l = Math.hypot(...d);
  return [d[0] / l, d[1] / l, d[2] / l] as const;
};

describe('the outline of a glass', () => {
  it('lies at its radius: 33 mm seen from 1.2 m is r / sqrt(d^2 - r^2) off the axis', () => {
    const { input, made, hero } = study(backlit([1, 1, 1]));
    const edges = readEdges(made, hero);
    expect(edges.length).toBeGreaterThan(20);
    for (const { u, v } of edges) {
      // Height on the glass at that row, good enough for its slow taper.
      const y = 0.07 + (1 - 2 * v) * input.view.tanHalfHeight * 1.2;
      const r = 0.03 + (0.003 * y) / 0.15;
      const tan = r / Math.sqrt(1.2 ** 2 - r * r);
      expect(Math.abs((2 * u - 1) * input.view.tanHalfWidth)).toBeCloseTo(tan, 3);
    }
  });
});
