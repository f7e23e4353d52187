import { describe, expect, it } from 'vitest';
import type { Finish } from '../../../src/materials/finish.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import { CLEAR, cylinderShapes, matte, mediumVolume, setOf, sphereShape, surfaceOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';

/*
 * White furnace: in a uniform surround of radiance 1, whatever loses no light shows radiance 1 everywhere and cannot be
 * seen (energy conservation; a standard check of renderers). Tolerance 0.5 %, and 4 standard errors where noise is more.
 */
const SURROUND = { surroundRgb: [1, 1, 1] as const };
const SAMPLES = 20_000;

const DIRECTIONS: readonly (readonly [number, number, number])[] = [
  [0, 0, -1],
  [0.02, -0.03, -1],
  [0.035, 0.01, -1],
  [-0.047, 0.0, -1],
];

function expectInvisible(
  surfaces: OpticalSurface[],
  volumes: Parameters<typeof setOf>[1] = [],
  samples = SAMPLES,
): void {
  for (const direction of DIRECTIONS) {
    const { rgb, error, dropped } = traceRays(setOf(surfaces, volumes), [0, 0, 1], direction, samples, {
      ...SURROUND,
      maxDepth: 400,
    });
    expect(dropped).toBe(0);
    expect(Math.abs(rgb[0] - 1), `toward ${direction}: ${rgb[0]} +- ${error}`).toBeLessThan(Math.max(0.005, 4 * error));
    expect(Math.abs(rgb[0] - 1)).toBeLessThan(0.01);
  }
}

const ball = (finish: Finish, extra: Partial<OpticalSurface> = {}): OpticalSurface =>
  surfaceOf('ball', sphereShape(0.05), finish, extra);

describe('white furnace', () => {
  it('hides a white matte ball', () => expectInvisible([ball(matte(1))]));

  it('hides a white ball under a smooth coat of n 1.49', () =>
    expectInvisible([ball({ type: 'gloss', reflectanceRgb: [1, 1, 1], coatIndex: 1.49, roughness: 0 })]));

  for (const roughness of [0.1, 0.3, 0.7])
    it(`hides a white ball under a coat of roughness ${roughness}`, () =>
      expectInvisible([ball({ type: 'gloss', reflectanceRgb: [1, 1, 1], coatIndex: 1.49, roughness })], [], 60_000));

  it('hides a perfect mirror ball', () => expectInvisible([ball({ type: 'mirror', reflectanceRgb: [1, 1, 1] })]));

  it('hides a thin white sheet that scatters 0.4 back and 0.6 through', () =>
    expectInvisible([
      surfaceOf(
        'sheet',
        { type: 'quad', originM: [-0.1, -0.1, 0], edgeUM: [0.2, 0, 0], edgeVM: [0, 0.2, 0] },
        { type: 'translucent', reflectanceRgb: [0.4, 0.4, 0.4], transmittanceRgb: [0.6, 0.6, 0.6] },
      ),
    ]));

  it('hides a clear ball of n 1.52', () =>
    expectInvisible([ball(CLEAR, { backVolume: 'glass' })], [mediumVolume('glass', 1.52)]));

  for (const anisotropy of [0, 0.8])
    it(`hides a ball of milk that absorbs nothing (n 1.35, 3 mm between scatterings, g ${anisotropy})`, () =>
      expectInvisible(
        [ball(CLEAR, { backVolume: 'milk' })],
        [
          {
            ...mediumVolume('milk', 1.35),
            medium: { index: 1.35, absorptionPerM: [0, 0, 0], scatteringPerM: [330, 330, 330], anisotropy },
          },
        ],
        25_000,
      ));

  it('hides cloudy drink of three scattering colours behind a clear shell', () => {
    const shell = surfaceOf('shell', sphereShape(0.045), CLEAR, { frontVolume: 'glass', backVolume: 'milk' });
    const outside = surfaceOf('outside', sphereShape(0.05), CLEAR, { backVolume: 'glass' });
    const milk = {
      ...mediumVolume('milk', 1.35),
      medium: {
        index: 1.35,
        absorptionPerM: [0, 0, 0] as const,
        scatteringPerM: [40, 120, 300] as const,
        anisotropy: 0.5,
      },
    };
    for (const direction of DIRECTIONS) {
      const { rgb, error } = traceRays(
        setOf([outside, shell], [mediumVolume('glass', 1.52, [0, 0, 0], 20), milk]),
        [0, 0, 1],
        direction,
        6_000,
        {
          ...SURROUND,
          maxDepth: 400,
        },
      );
      for (const c of [0, 1, 2]) expect(Math.abs(rgb[c] - 1)).toBeLessThan(Math.max(0.01, 5 * error));
    }
  });

  it('hides a ball of frosted glass but for what single bounces off its facets lose (alpha 0.1)', () => {
    for (const direction of DIRECTIONS) {
      const { rgb } = traceRays(
        setOf([ball({ type: 'clear', roughness: 0.1 }, { backVolume: 'glass' })], [mediumVolume('glass', 1.5)]),
        [0, 0, 1],
        direction,
        20_000,
        { ...SURROUND, maxDepth: 400 },
      );
      expect(rgb[0]).toBeLessThan(1.005);
      expect(rgb[0]).toBeGreaterThan(0.8);
    }
  });

  it('hides a ball of ice half sunk in a cylinder of water, which has priority inside it', () => {
    const water = cylinderShapes(0.045, -0.06, 0).map((shape, i) =>
      surfaceOf(`water ${i}`, shape, CLEAR, { backVolume: 'water' }),
    );
    expectInvisible(
      [ball(CLEAR, { backVolume: 'ice' }), ...water],
      [mediumVolume('ice', 1.31, [0, 0, 0], 30), mediumVolume('water', 1.333, [0, 0, 0], 10)],
    );
  });

  it('loses the single-bounce share of a rough metal and no more (directional albedo 0.98830 at alpha 0.1, on the axis)', () => {
    // Quadrature value for F = 1, height-correlated masking: references of Walter et al. 2007 eqs 33-34, integrated.
    const flat = surfaceOf(
      'plate',
      { type: 'quad', originM: [-0.5, -0.5, 0], edgeUM: [1, 0, 0], edgeVM: [0, 1, 0] },
      { type: 'metal', reflectanceRgb: [1, 1, 1], roughness: 0.1 },
    );
    const { rgb, error } = traceRays(setOf([flat]), [0, 0, 1], [0, 0, -1], 100_000, SURROUND);
    expect(Math.abs(rgb[0] - 0.9883)).toBeLessThan(Math.max(5e-4, 4 * error));
  });
});
