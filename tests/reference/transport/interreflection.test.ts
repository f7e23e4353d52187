import { describe, expect, it } from 'vitest';
import { fromAim } from '../../../src/core/rigid.ts';
import type { Shape } from '../../../src/core/shape.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import { BLACK, matte, setOf, sphereShape, surfaceOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';

/*
 * CIE 171:2006, test case 5.8 (diffuse inter-reflection): in a closed room of area S and uniform reflectance rho a source of flux
 * Phi gives an average illuminance Phi / (S (1 - rho)). The formula is exact point by point in a sphere, the integrating
 * sphere of photometry, which is what is traced here: S = 96 m2 and 10 000 lm give the figures of the test case.
 */
const AREA = 96;
const RADIUS = Math.sqrt(AREA / (4 * Math.PI));
const FLUX = 10_000;

/** Sphere whose front is its inside: its profile is walked from the top down. */
const room: Shape = {
  type: 'revolvedArc',
  centreRM: 0,
  centreYM: 0,
  radiusM: RADIUS,
  angle0Rad: Math.PI / 2,
  angle1Rad: -Math.PI / 2,
};

describe('inter-reflection in a closed white room', () => {
  for (const [rho, lux] of [
    [0.2, 130.2083],
    [0.5, 208.3333],
    [0.8, 520.8333],
    [0.9, 1041.667],
  ] as const)
    it(`reflectance ${rho}: ${lux} lx on the wall from a bulb in the middle, within 1 %`, () => {
      const r = 0.02;
      const nits = FLUX / (4 * Math.PI * Math.PI * r * r);
      const bulb: OpticalSurface = surfaceOf(
        'bulb',
        sphereShape(r),
        BLACK,
        { emission: { fixtureId: 'bulb', axialLuminanceNits: nits, profile: { type: 'lambert' } } },
        fromAim([0, 0, 0], [0, 1, 0]),
      );
      const { rgb, error } = traceRays(
        setOf([surfaceOf('room', room, matte(rho)), bulb]),
        [0.5, 0.3, 0],
        [1, 0.2, 0.4],
        16_384,
        {
          maxDepth: 400,
        },
      );
      const read = (rgb[0] * Math.PI) / rho;
      expect(Math.abs(read / lux - 1), `${read} lx`).toBeLessThan(0.01 + (3 * error) / rgb[0]);
      expect(Math.abs(read / lux - 1)).toBeLessThan(0.02);
    });
});
