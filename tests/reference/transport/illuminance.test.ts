import { describe, expect, it } from 'vitest';
import { fromAim } from '../../../src/core/rigid.ts';
import type { Shape } from '../../../src/core/shape.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { EmissionProfile, OpticalSurface } from '../../../src/materials/surface.ts';
import { BLACK, levelSquare, matte, setOf, sphereShape, surfaceOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';

const RHO = 0.18;

const emitting = (
  shape: Shape,
  axialLuminanceNits: number,
  profile: EmissionProfile = { type: 'lambert' },
  frame?: OpticalSurface['worldFromLocal'],
): OpticalSurface =>
  surfaceOf('lamp', shape, BLACK, { emission: { fixtureId: 'lamp', axialLuminanceNits, profile } }, frame);

/** Illuminance on the upper side of a level card at `at`, read from its luminance. */
function meter(lamp: OpticalSurface, at: Vec3): { lux: number; error: number } {
  const card = surfaceOf('card', levelSquare(at, 0.02, 'up'), matte(RHO));
  const { rgb, error } = traceRays(
    setOf([lamp, card]),
    [at[0] + 0.2, at[1] + 0.05, at[2] + 0.1],
    [-0.2, -0.05, -0.1],
    16_384,
  );
  return { lux: (rgb[0] * Math.PI) / RHO, error: (error * Math.PI) / RHO };
}

const expectLux = (lamp: OpticalSurface, at: Vec3, lux: number): void => {
  const read = meter(lamp, at);
  expect(Math.abs(read.lux / lux - 1), `${read.lux} lx against ${lux}`).toBeLessThan(0.01);
};

/** Level panel a x b at height c, shining down, lower corner over the origin. */
const panel = (a: number, b: number, c: number): Shape => ({
  type: 'quad',
  originM: [0, c, 0],
  edgeUM: [a, 0, 0],
  edgeVM: [0, 0, b],
});
const disc = (radiusM: number, yM: number): Shape => ({ type: 'revolvedLine', r0M: 0, y0M: yM, r1M: radiusM, y1M: yM });

describe('illuminance through the tracer, within 1 %', () => {
  it('panel 1.2 x 0.6 m, 1 m over its centre, 2000 cd/m2: 1117.71 lx', () =>
    expectLux(emitting(panel(1.2, 0.6, 1), 2000), [0.6, 0, 0.3], 1117.7055));
  it('panel 0.6 x 0.3 m at 0.8 m, 5000 cd/m2: 1260.99 lx', () =>
    expectLux(emitting(panel(0.6, 0.3, 0.8), 5000), [0.3, 0, 0.15], 1260.9937));
  it('panel 0.6 x 0.3 m at 1 m, under one corner: pi L 0.0444721', () =>
    expectLux(emitting(panel(0.6, 0.3, 1), 5000), [0, 0, 0], Math.PI * 5000 * 0.0444721));
  it('panel 1 x 1 m at 1 m, under one corner: pi L 0.1385316', () =>
    expectLux(emitting(panel(1, 1, 1), 1000), [0, 0, 0], Math.PI * 1000 * 0.1385316));

  it('panel 0.3 x 0.15 m at 0.8 m, under one corner: pi L 0.0200693', () =>
    expectLux(emitting(panel(0.3, 0.15, 0.8), 5000), [0, 0, 0], Math.PI * 5000 * 0.0200693));

  it('disc r 0.3 at 1.5 m, 1000 cd/m2: 120.831 lx', () =>
    expectLux(emitting(disc(0.3, 1.5), 1000), [0, 0, 0], 120.8305));
  it('disc r 0.5 at 1 m, 1000 cd/m2: 628.319 lx', () => expectLux(emitting(disc(0.5, 1), 1000), [0, 0, 0], 628.3185));
  it('disc r 0.15 at 0.6 m, 5000 cd/m2: 923.998 lx', () =>
    expectLux(emitting(disc(0.15, 0.6), 5000), [0, 0, 0], 923.9978));
  it('disc r 0.5 at 1 m, 0.5 m off axis: pi L 0.1464466', () =>
    expectLux(emitting(disc(0.5, 1), 1000), [0.5, 0, 0], Math.PI * 1000 * 0.1464466));
  it('disc r 0.3 at 1.5 m, 0.75 m off axis: pi L 0.0252675', () =>
    expectLux(emitting(disc(0.3, 1.5), 1000), [0, 0, 0.75], Math.PI * 1000 * 0.0252675));

  it('sphere r 0.1 at 1 m, 10 000 cd/m2: 314.159 lx', () =>
    expectLux(
      emitting(sphereShape(0.1), 10_000, { type: 'lambert' }, fromAim([0, 1, 0], [0, 2, 0])),
      [0, 0, 0],
      314.1593,
    ));

  it('small bulb, 10 000 lm all round, 3 m up: 88.419, 50.933 and 12.042 lx at 0, 2 and 5 m', () => {
    const r = 0.02;
    const nits = 10_000 / (4 * Math.PI * Math.PI * r * r);
    const bulb = emitting(sphereShape(r), nits, { type: 'lambert' }, fromAim([0, 3, 0], [0, 4, 0]));
    expectLux(bulb, [0, 0, 0], 88.4194);
    expectLux(bulb, [2, 0, 0], 50.9327);
    expectLux(bulb, [0, 0, 5], 12.0418);
  });

  it('spot of 10 000 cd with a 20 degree beam (cos^45.28): half at 10 degrees off axis, by the inverse square law', () => {
    const m = Math.log(0.5) / Math.log(Math.cos((10 * Math.PI) / 180));
    expect(m).toBeCloseTo(45.2776, 4);
    const radius = 0.005;
    const lamp = emitting(disc(radius, 2), 10_000 / (Math.PI * radius * radius), { type: 'cosPower', exponent: m });
    expectLux(lamp, [0, 0, 0], 10_000 / 4);
    const off = 2 * Math.tan((10 * Math.PI) / 180);
    // E = I cos(theta) / d^2 with d = 2 / cos(theta) and I = 5000 cd.
    expectLux(lamp, [off, 0, 0], (5000 * Math.cos((10 * Math.PI) / 180) ** 3) / 4);
  });

  for (const [beamDeg, offDeg] of [
    [10, 3],
    [20, 5],
    [40, 15],
    [60, 30],
    [60, 45],
  ] as const)
    it(`spot with a ${beamDeg} degree beam gives I cos^3 / h^2 at ${offDeg} degrees off its axis`, () => {
      const rad = Math.PI / 180;
      const m = Math.log(0.5) / Math.log(Math.cos((beamDeg / 2) * rad));
      const radius = 0.004;
      const lamp = emitting(disc(radius, 2), 10_000 / (Math.PI * radius * radius), { type: 'cosPower', exponent: m });
      const cos = Math.cos(offDeg * rad);
      expectLux(lamp, [2 * Math.tan(offDeg * rad), 0, 0], (10_000 * cos ** m * cos ** 3) / 4);
    });

  it('reads a table profile like the curve that it holds', () => {
    const table = Array.from({ length: 181 }, (_, i) => Math.cos((i * Math.PI) / 360) ** 3);
    const tabled = meter(emitting(disc(0.05, 1), 5000, { type: 'table', relativeLuminance: table }), [0.5, 0, 0]);
    const exact = meter(emitting(disc(0.05, 1), 5000, { type: 'cosPower', exponent: 4 }), [0.5, 0, 0]);
    expect(tabled.lux / exact.lux).toBeCloseTo(1, 3);
  });
});
