import { describe, expect, it } from 'vitest';
import { createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import { findPracticals } from '../../../src/analysis/practicals/measurePractical.ts';
import { projectPoint } from '../../../src/camera/projection.ts';
import { block, camera, fixture, matteSheet, scene } from '../../analysis/helpers/scenes.ts';
import { traceAt } from '../../helpers/traceNits.ts';

const LOOK = camera({ positionM: [0, 0.2, 1.2], aimM: [0.1, 0.15, 0], focalLengthMm: 50, whiteBalanceK: 5600 });
const lampIn = (record: Record<string, unknown>, withSet = false) => {
  const input = createCheckInput(
    scene({
      pieces: withSet ? [matteSheet(0.3), block()] : [],
      fixtures: [
        fixture({
          id: 'lamp',
          name: 'Lamp',
          positionM: [0.25, 0.2, -0.1],
          aimM: [0.25, 0.2, 1],
          cctK: 5600,
          output: { unit: 'lumens', value: 806 },
          ...record,
        }),
      ],
      camera: LOOK,
      subject: { pieceId: withSet ? 'hero' : 'gone', meterPointM: [0, 0.08, 0] },
    }),
  );
  const [practical] = findPracticals(createFrameStudy(input));
  return { input, practical };
};

describe('a practical', () => {
  it('a 6 cm bulb of 806 lm shows flux / (4 pi^2 r^2) = 22 685 cd/m2 (Lambertian ball, flux = pi L 4 pi r^2)', () => {
    const { practical } = lampIn({ kind: 'bulb', diameterM: 0.06 });
    const expected = 806 / (4 * Math.PI ** 2 * 0.03 ** 2);
    expect(expected).toBeCloseTo(22684.6, 0);
    expect(practical.brightestNits / expected).toBeCloseTo(1, 3);
    expect(practical.meanNits / expected).toBeCloseTo(1, 3);
  });

  it.each([
    [0.2, 0.45, 0.45],
    [0.3, 0.3, 0.6],
    [0.16, 0.6, 0.2],
  ])(
    'a closed ball shade %f m wide, transmittance %f, reflectance %f: L = t flux / (pi S (1 - r)) within 5 %%',
    (diameterM, t, r) => {
      // Integrating sphere: E = flux / (S (1 - r)) inside (CIE 171:2006, 5.8); what leaves is t E / pi.
      const { practical } = lampIn({
        kind: 'lantern',
        shape: 'sphere',
        diameterM,
        heightM: diameterM,
        bulbDiameterM: 0.03,
        transmittance: t,
        reflectance: r,
        output: { unit: 'lumens', value: 400 },
      });
      const area = Math.PI * diameterM ** 2;
      const expected = (t * 400) / (Math.PI * area * (1 - r));
      expect(Math.abs(practical.meanNits / expected - 1)).toBeLessThan(0.05);
    },
  );

  it('the shade of an open cylinder is as bright as in the traced frame, within .1 stop at two standard errors', () => {
    const { input, practical } = lampIn(
      {
        kind: 'lantern',
        shape: 'cylinder',
        diameterM: 0.16,
        heightM: 0.2,
        bulbDiameterM: 0.04,
        output: { unit: 'lumens', value: 400 },
      },
      true,
    );
    const at = projectPoint(input.view, practical.brightestM);
    expect(at).not.toBeNull();
    if (!at) return;
    const { nits, error } = traceAt(input, at.u, at.v, { samples: 6000, maxDepth: 16 });
    expect(error / nits).toBeLessThan(0.05);
    expect(Math.abs(Math.log2(practical.brightestNits / nits))).toBeLessThan(0.1 + (2 * error) / nits / Math.LN2);
  });
});
