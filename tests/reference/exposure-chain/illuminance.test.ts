import { describe, expect, it } from 'vitest';
import { createCheckInput, createFrameLight, measureIlluminance, type Receptor } from '../../../src/analysis/index.ts';
import { addScaled, normalize, type Vec3 } from '../../../src/core/vec3.ts';
import type { Fixture } from '../../../src/fixtures/records.ts';
import { bareInput, glowingDiscAbove } from '../../analysis/helpers/bareSet.ts';
import { fixture, panel, scene } from '../../analysis/helpers/scenes.ts';

/*
 * The whole chain record -> surfaces -> World -> ray query -> illuminance, against closed forms: J. R. Howell, A Catalog of
 * Radiation Heat Transfer Configuration Factors (plane element to rectangle, disc, sphere), and inverse square. Figures
 * computed from the formulas given beside each. All within 1 %; the quadrature itself stops at 0.1 %.
 */

/** Lux at a point from one fixture alone. */
const luxFrom = (light: Fixture, pointM: Vec3, receptor: Receptor): number => {
  const input = createCheckInput(scene({ pieces: [], fixtures: [light] }));
  return measureIlluminance(createFrameLight(input), pointM, receptor).totalLux;
};
const facing = (normal: Vec3): Receptor => ({ type: 'plane', normal });
const within1Percent = (actual: number, expected: number): void => {
  expect(Math.abs(actual / expected - 1)).toBeLessThan(0.01);
};

/** Panel of luminance L whose face looks down from height `heightM`, its width along x, its height along z. */
const overheadPanel = (widthM: number, depthM: number, heightM: number, luminanceNits: number): Fixture =>
  panel({
    positionM: [0, heightM, 0],
    aimM: [0, 0, 0],
    widthM,
    heightM: depthM,
    // Lambert: flux = pi L A.
    output: { unit: 'lumens', value: Math.PI * luminanceNits * widthM * depthM },
  });

describe('illuminance through the whole chain', () => {
  it('gives 1117.71 lx under the middle of a 1.2 x 0.6 m panel of 2000 cd/m2 at 1 m', () => {
    // E = pi L F, F of four rectangles .6 x .3 with a corner overhead: 4 x .0444721.
    within1Percent(luxFrom(overheadPanel(1.2, 0.6, 1, 2000), [0, 0, 0], facing([0, 1, 0])), 1117.7055);
  });

  it('gives 1260.99 lx under a 0.6 x 0.3 m panel of 5000 cd/m2 at 0.8 m, where the point formula says 1406', () => {
    within1Percent(luxFrom(overheadPanel(0.6, 0.3, 0.8, 5000), [0, 0, 0], facing([0, 1, 0])), 1260.9937);
  });

  it('gives pi L x .1385316 under one corner of a 1 x 1 m panel at 1 m', () => {
    const lux = luxFrom(overheadPanel(1, 1, 1, 1000), [0.5, 0, 0.5], facing([0, 1, 0]));
    within1Percent(lux, Math.PI * 1000 * 0.1385316);
  });

  it('gives pi L x .0557342 on an upright cell below the edge of a 1 x 1 m panel', () => {
    // Receiver perpendicular to the rectangle, its normal along the rectangle's side b, at the foot of the perpendicular to
    // a corner: (a, b, c) = (1, 1, 1).
    const lux = luxFrom(overheadPanel(1, 1, 1, 1000), [-0.5, 0, -0.5], facing([0, 0, 1]));
    within1Percent(lux, Math.PI * 1000 * 0.0557342);
  });

  it('gives 1111.1 lx from a spot of 2500 cd at 1.5 m, and 962.25 lx on a cell turned by 30 degrees', () => {
    const spot = fixture({
      kind: 'spot',
      id: 'spot',
      name: 'Spot',
      positionM: [0, 1.5, 0],
      aimM: [0, 0, 0],
      lensDiameterM: 0.05,
      beamAngleDeg: 30,
      output: { unit: 'peakCandela', value: 2500 },
    });
    // Inverse square and cosine: 2500 / 1.5^2 = 1111.11; x cos 30 = 962.2504.
    within1Percent(luxFrom(spot, [0, 0, 0], facing([0, 1, 0])), 2500 / 2.25);
    within1Percent(luxFrom(spot, [0, 0, 0], facing([0.5, Math.sqrt(0.75), 0])), 962.2504);
  });

  it.each([
    [0.5, 1, 1000, 628.3185],
    [0.3, 1.5, 1000, 120.8305],
    [0.15, 0.6, 5000, 923.9978],
  ])('gives pi L r^2/(r^2 + d^2) under a disc of %f m at %f m', (radiusM, heightM, luminanceNits, expected) => {
    const input = bareInput([glowingDiscAbove(heightM, radiusM, luminanceNits)]);
    within1Percent(measureIlluminance(createFrameLight(input), [0, 0, 0], facing([0, 1, 0])).totalLux, expected);
  });

  it.each([
    [0.5, 1, 0.5, 0.1464466],
    [0.5, 1, 1, 0.0658784],
    [0.3, 1.5, 0.75, 0.0252675],
  ])('gives pi L F under a disc of %f m at %f m, %f m off its axis', (radiusM, heightM, offsetM, factor) => {
    const input = bareInput([glowingDiscAbove(heightM, radiusM, 1000)]);
    const lux = measureIlluminance(createFrameLight(input), [offsetM, 0, 0], facing([0, 1, 0])).totalLux;
    within1Percent(lux, Math.PI * 1000 * factor);
  });

  it('gives pi L (r/D)^2 = 314.159 lx at 1 m from a bulb of 0.1 m radius and 10 000 cd/m2', () => {
    const bulb = fixture({
      kind: 'bulb',
      id: 'bulb',
      name: 'Bulb',
      positionM: [0, 1, 0],
      aimM: [0, 0, 0],
      diameterM: 0.2,
      output: { unit: 'lumens', value: Math.PI * 1e4 * 4 * Math.PI * 0.01 },
    });
    within1Percent(luxFrom(bulb, [0, 0, 0], facing([0, 1, 0])), 314.1593);
  });

  it.each([
    [0, 88.4194],
    [1, 75.4938],
    [2, 50.9327],
    [3, 31.261],
    [4, 19.0986],
    [5, 12.0418],
  ])('gives CIE 171 case 5.1: 10 000 lm at 3 m, %f m out on the floor, %f lx', (outM, expected) => {
    // E = (flux / 4 pi) h / (h^2 + r^2)^1.5; CIE 171:2006 as checked by computation.
    const bulb = fixture({
      kind: 'bulb',
      id: 'bulb',
      name: 'Bulb',
      positionM: [0, 3, 0],
      aimM: [0, 0, 0],
      diameterM: 0.04,
      output: { unit: 'lumens', value: 10000 },
    });
    within1Percent(luxFrom(bulb, [outM, 0, 0], facing([0, 1, 0])), expected);
  });

  it.each([0, 45, 90, 135])('weighs light from %f degrees off the dome axis by (1 + cos) / 2', (angleDeg) => {
    // Cardioid: the definition of the receptor used here; a far small source of 1000 lx on a plane facing it.
    const small = panel({
      positionM: [0, 3, 0],
      aimM: [0, 0, 0],
      widthM: 0.02,
      heightM: 0.02,
      output: { unit: 'luxAtDistance', value: 1000, distanceM: 3 },
    });
    const angle = (angleDeg * Math.PI) / 180;
    const axis: Vec3 = [Math.sin(angle), Math.cos(angle), 0];
    const plane = luxFrom(small, [0, 0, 0], facing([0, 1, 0]));
    const dome = luxFrom(small, [0, 0, 0], { type: 'dome', axis });
    expect(dome / plane).toBeCloseTo((1 + Math.cos(angle)) / 2, 3);
  });

  it('reads the stated lux at the stated distance for panels and spots in any position and colour', () => {
    for (const [positionM, cctK] of [
      [[0.4, 1.1, -0.7], 3200],
      [[-1.3, 0.5, 0.9], 5600],
    ] as const) {
      const light = panel({ positionM, cctK, output: { unit: 'luxAtDistance', value: 3000, distanceM: 0.9 } });
      const toward = normalize([
        light.aimM[0] - positionM[0],
        light.aimM[1] - positionM[1],
        light.aimM[2] - positionM[2],
      ]);
      const pointM = addScaled(positionM, toward, 0.9);
      within1Percent(luxFrom(light, pointM, facing([-toward[0], -toward[1], -toward[2]])), 3000);
    }
  });
});
