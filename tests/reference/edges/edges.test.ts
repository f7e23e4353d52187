import { describe, expect, it } from 'vitest';
import { castEdges } from '../../../src/analysis/edges/castEdges.ts';
import { patternContrast } from '../../../src/analysis/edges/pattern.ts';
import { createCheckInput, createFrameStudy, measureIlluminance } from '../../../src/analysis/index.ts';
import { camera, glossSheet, grip, panel, scene } from '../../analysis/helpers/scenes.ts';

/* p = s b / a is similar triangles; the figures are computed from it. */

/** A square light of side s facing straight down, a + b over a matte table, and a flag b over it that ends at x = 0. */
const overTable = (s: number, a: number, b: number) => {
  const input = createCheckInput(
    scene({
      pieces: [
        glossSheet({
          positionM: [0, -0.005, 0],
          widthM: 4,
          depthM: 4,
          finish: { type: 'matte', reflectanceRgb: [0.5, 0.5, 0.5] },
        }),
      ],
      fixtures: [
        panel({
          positionM: [0, a + b, 0],
          aimM: [0, 0, 0],
          widthM: s,
          heightM: s,
          output: { unit: 'lumens', value: 5000 },
        }),
      ],
      grip: [
        grip({
          kind: 'flag',
          id: 'flag',
          name: 'Flag',
          positionM: [-0.6, b, 0],
          aimM: [-0.6, b - 1, 0],
          widthM: 1.2,
          heightM: 2,
        }),
      ],
      camera: camera({ positionM: [0.5, 0.06, 1.4], aimM: [0, 0, 0], focalLengthMm: 35, focusDistanceM: 1.4 }),
      subject: { pieceId: 'gone', meterPointM: [0, 0.05, 0.5] },
    }),
  );
  return createFrameStudy(input);
};

describe('the edge of a flag', () => {
  it.each([
    [0.6, 1, 0.2, 0.12],
    [0.3, 1.5, 0.1, 0.02],
    [1.2, 0.8, 0.3, 0.45],
  ])(
    'under a %f m light, %f m from it and %f m over the table, is s b / a = %f m soft, within 2 %%',
    (s, a, b, expected) => {
      const edge = castEdges(overTable(s, a, b)).find(({ makerId }) => makerId === 'flag');
      expect(edge).toBeDefined();
      if (!edge) return;
      expect(edge.receiverId).toBe('sheet');
      expect(Math.abs(edge.atM[0])).toBeLessThan(0.01);
      expect(Math.abs((edge.penumbraM ?? 0) / expected - 1)).toBeLessThan(0.02);
    },
  );

  it('measures what the light itself does: from full light to none over the penumbra (CIE S 017, by quadrature)', () => {
    const study = overTable(0.3, 1, 0.25);
    const lux = (x: number): number =>
      measureIlluminance(study.light, [x, 1e-5, 0], { type: 'plane', normal: [0, 1, 0] }, { tolerance: 0.002 })
        .totalLux;
    const p = (0.3 * 0.25) / 1;
    expect(castEdges(study).find(({ makerId }) => makerId === 'flag')?.penumbraM).toBeCloseTo(p, 2);
    // Lit on the far side of the edge, dark under the flag, half in the middle.
    expect(lux(-p / 2 - 0.004)).toBe(0);
    expect(lux(-p / 2 + 0.008)).toBeGreaterThan(0);
    const open = lux(p / 2 + 0.01);
    expect(lux(0) / open).toBeCloseTo(0.5, 1);
    expect(lux(p / 2 - 0.008) / open).toBeLessThan(0.99);
  });
});

describe('a pattern of slats under a soft edge', () => {
  it.each([
    [0.02, 0.04, 0.01, 1],
    [0.02, 0.04, 0.02, 1],
    // Window of 30 mm over gaps of 20 at 40: 20 of 30 open at most, 10 at least.
    [0.02, 0.04, 0.03, (20 - 10) / (20 + 10)],
    [0.02, 0.04, 0.04, 0],
    // 50 mm: one pitch and 10 mm: 30 of 50 at most, 20 at least.
    [0.02, 0.04, 0.05, (30 - 20) / (30 + 20)],
    [0.01, 0.04, 0.02, 1],
    [0.03, 0.04, 0.02, (20 - 10) / (20 + 10)],
  ])('gap %f at pitch %f with a penumbra of %f keeps %f of its contrast', (gap, pitch, penumbra, contrast) => {
    expect(patternContrast(gap, pitch, penumbra)).toBeCloseTo(contrast, 9);
  });

  it('agrees with a window slid over the pattern in small steps', () => {
    for (const [gap, pitch, p] of [
      [0.012, 0.03, 0.017],
      [0.02, 0.05, 0.13],
      [0.004, 0.05, 0.031],
    ]) {
      const open = (x: number): number => {
        const n = 4000;
        let sum = 0;
        for (let i = 0; i < n; i++) {
          const at = (((x + ((i + 0.5) / n - 0.5) * p) % pitch) + pitch) % pitch;
          if (at < gap) sum++;
        }
        return sum / n;
      };
      const values = Array.from({ length: 200 }, (_, i) => open((i / 200) * pitch));
      const [most, least] = [Math.max(...values), Math.min(...values)];
      expect(patternContrast(gap, pitch, p)).toBeCloseTo((most - least) / (most + least), 2);
    }
  });

  it('keeps a single opening whole and shows nothing of a shut one', () => {
    expect(patternContrast(0.02, Number.POSITIVE_INFINITY, 1)).toBe(1);
    expect(patternContrast(0, 0.04, 0.01)).toBe(0);
  });
});
