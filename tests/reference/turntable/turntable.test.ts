import { describe, expect, it } from 'vitest';
import { checkFrame } from '../../../src/analysis/index.ts';
import {
  flickerResidual,
  isLockedToMains,
  rpmForBlur,
  safeShutters,
  turningSpeedMPerS,
  turnPerFrameDeg,
} from '../../../src/analysis/turn/motion.ts';
import { block, camera, panel, scene } from '../../analysis/helpers/scenes.ts';

/* Kinematics and the mean of a sine over an interval; the figures are computed from the formulas beside each. */

describe('a turn', () => {
  it('of 6 rpm moves a point at 4 cm by .0251327 m/s (2 pi r rpm / 60): 3.351032 px in 1/48 s at 6400 px/m', () => {
    const speed = turningSpeedMPerS(0.04, 6);
    expect(speed).toBeCloseTo(0.0251327, 7);
    expect((speed / 48) * 1000).toBeCloseTo(0.523599, 6);
    expect((speed / 48) * 6400).toBeCloseTo(3.351032, 6);
  });

  it.each([
    [0.04, 2, 1 / 48, 6400, 1.117011],
    [0.1, 10, 1 / 50, 3000, 6.283185],
  ])('r %f m, %f rpm, %f s, %f px/m: %f px', (radiusM, rpm, shutterS, pxPerM, px) => {
    expect(turningSpeedMPerS(radiusM, rpm) * shutterS * pxPerM).toBeCloseTo(px, 5);
  });

  it('stays within one px up to 1.790493 rpm at 4 cm in 1/48 s', () => {
    expect(rpmForBlur(1, 0.04, 1 / 48, 6400)).toBeCloseTo(1.790493, 6);
  });

  it('of 6 rpm is 1.5 degrees a frame at 24 frames a second', () => {
    expect(turnPerFrameDeg(6, 24)).toBeCloseTo(1.5, 12);
  });
});

describe('flicker', () => {
  it.each([
    [50, 1 / 48, 0.039545],
    [50, 1 / 60, 0.165399],
    [50, 1 / 125, 0.233872],
    [60, 1 / 48, 0.127324],
    [60, 1 / 50, 0.126138],
    [50, 1 / 50, 0],
  ])('%f Hz mains leave of their ripple at %f s: %f (|sinc(2 f t)|)', (hz, shutterS, left) => {
    expect(flickerResidual(shutterS, hz)).toBeCloseTo(left, 6);
  });

  it.each([
    [24, 50, [172.8, 86.4]],
    [24, 60, [288, 216, 144, 72]],
    [25, 50, [360, 270, 180, 90]],
    [30, 50, [324, 216, 108]],
    [30, 60, [360, 270, 180, 90]],
  ])('%f frames a second at %f Hz: angles %j', (fps, hz, angles) => {
    const found = safeShutters(fps, hz).map(({ angleDeg }) => Number(angleDeg.toFixed(6)));
    for (const angle of angles) expect(found).toContain(angle);
    for (const { shutterS } of safeShutters(fps, hz)) expect(flickerResidual(shutterS, hz)).toBeLessThan(1e-12);
  });

  it('runs in step at 25 frames on 50 Hz and 30 on 60 Hz, not at 24 on either', () => {
    expect(isLockedToMains(25, 50)).toBe(true);
    expect(isLockedToMains(30, 60)).toBe(true);
    expect(isLockedToMains(24, 50)).toBe(false);
    expect(isLockedToMains(23.976, 60)).toBe(false);
  });
});

describe('the check of the turntable', () => {
  it('gives wobble and blur in px from the lens geometry', () => {
    // The block is 5 cm wide: its front stands 1.2 - .025 m from the lens, whose image distance is 85 x 1200 / 1115 mm.
    const { figures } = checkFrame(
      scene({
        pieces: [block()],
        fixtures: [panel()],
        turntable: { centreM: [0, 0, 0], diameterM: 0.3, thicknessM: 0.02, rpm: 6, runOutM: 0.001, carries: ['hero'] },
        camera: camera({ positionM: [0, 0.06, 1.2], aimM: [0, 0.06, 0], shutterS: 1 / 48 }),
      }),
      { checks: ['turntable'], sweep: false },
    );
    const turn = figures.turntable as { wobblePx: number; blurPx: number; pxPerMm: number; wobbleMm: number };
    const imageM = (0.085 * 1.2) / (1.2 - 0.085);
    const pxPerM = (3840 / 0.036) * (imageM / (1.2 - 0.025));
    expect(turn.pxPerMm / (pxPerM / 1000)).toBeCloseTo(1, 4);
    expect(turn.wobbleMm).toBeCloseTo(2, 9);
    expect(turn.wobblePx / (0.002 * pxPerM)).toBeCloseTo(1, 4);
    expect(turn.blurPx / (((2 * Math.PI * 0.026 * 6) / 60 / 48) * pxPerM)).toBeCloseTo(1, 3);
  });
});
