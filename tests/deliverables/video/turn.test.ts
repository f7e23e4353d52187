import { describe, expect, it } from 'vitest';
import { quietShuttersS, residualRipple } from '../../../src/deliverables/video/flicker.ts';
import {
  blurPx,
  degPerFrame,
  rpmForBlur,
  surfaceSpeedMPerS,
  turnFigures,
} from '../../../src/deliverables/video/turnFigures.ts';
import { planTurn, type TurnPlanInput } from '../../../src/deliverables/video/turnPlan.ts';
import { openFrames } from '../helpers/openFrames.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

describe('motion blur of a turn', () => {
  // v = 2 pi r n; blur = v t (px/m). Closed form.
  it('moves 25.1327 mm/s at 40 mm and 6 rpm, and smears 3.351032 px in 1/48 s at 6400 px/m', () => {
    expect(surfaceSpeedMPerS(0.04, 6)).toBeCloseTo(0.0251327, 7);
    expect(blurPx(0.04, 6, 1 / 48, 6400)).toBeCloseTo(3.351032, 6);
    expect(blurPx(0.04, 2, 1 / 48, 6400)).toBeCloseTo(1.117011, 6);
    expect(blurPx(0.1, 10, 1 / 50, 3000)).toBeCloseTo(6.283185, 6);
  });

  it('stays within 1 px up to 1.790493 rpm at 40 mm and 1/48 s', () => {
    expect(rpmForBlur(1, 0.04, 1 / 48, 6400)).toBeCloseTo(1.790493, 6);
  });

  it('turns 1.5 degrees a frame at 6 rpm and 24 frames a second', () => {
    expect(degPerFrame(6, 24)).toBeCloseTo(1.5, 12);
  });

  it('swings twice the run-out: 0.4 mm off the axis is 0.8 mm, 11.2 px at 14 017 px/m', () => {
    const [, turn] = openFrames(studioSetup());
    const figures = turnFigures(turn.scene);
    // m = 0.1 / (0.861 - 0.1); px/m = m x 3840 / 0.036.
    expect(figures?.pxPerM).toBeCloseTo(((0.1 / 0.761) * 3840) / 0.036, 6);
    expect(figures?.runOutPx).toBeCloseTo(0.0008 * (figures?.pxPerM ?? 0), 9);
    // Rim radius 35 mm and 0.4 mm off the axis.
    expect(figures?.radiusM).toBeCloseTo(0.0354, 6);
  });

  it('gives no figures where the hero does not turn', () => {
    const setup = studioSetup();
    const { scene } = openFrames(setup)[1];
    expect(turnFigures({ ...scene, turntable: undefined })).toBeNull();
    if (scene.turntable)
      expect(turnFigures({ ...scene, turntable: { ...scene.turntable, carries: ['piece:plinth'] } })).toBeNull();
  });
});

describe('planTurn', () => {
  const asked: TurnPlanInput = { rpm: 6, fps: 24, shutterS: 1 / 48, startDeg: 30, blurSteps: 4 };
  const plan = (input: Partial<TurnPlanInput> = {}) => {
    const made = planTurn({ ...asked, ...input });
    if (!made.ok) throw new Error(made.error);
    return made.value;
  };

  it('loops: 240 frames of 1.5 degrees at 6 rpm and 24 fps, each once round', () => {
    const { frames, loopRpm, durationS } = plan();
    expect(frames).toHaveLength(240);
    expect(loopRpm).toBeCloseTo(6, 12);
    expect(durationS).toBeCloseTo(10, 12);
    frames.forEach(({ angleDeg, timeS }, i) => {
      expect(angleDeg).toBeCloseTo((30 + 1.5 * i) % 360, 9);
      expect(timeS).toBeCloseTo(i / 24, 12);
    });
    const last = frames[frames.length - 1].angleDeg;
    expect((last + 1.5) % 360).toBeCloseTo(30, 9);
  });

  it('rounds to whole frames where the speed does not fit: 7 rpm at 25 fps is 214 frames, 7.009 rpm', () => {
    const { frames, loopRpm } = plan({ rpm: 7, fps: 25 });
    expect(frames).toHaveLength(214);
    expect(loopRpm).toBeCloseTo(1500 / 214, 12);
  });

  it('spreads the exposure over the angle that the table turns while the shutter is open', () => {
    const { frames, blurDeg } = plan();
    // 36 degrees a second for 1/48 s.
    expect(blurDeg).toBeCloseTo(0.75, 12);
    expect(frames[2].stepsDeg.map((deg) => deg - 33)).toEqual(
      [0.09375, 0.28125, 0.46875, 0.65625].map((deg) => expect.closeTo(deg, 9)),
    );
    expect(plan({ blurSteps: 1 }).frames[0].stepsDeg[0]).toBeCloseTo(30.375, 9);
  });

  it('makes a proof of 12 pictures, 30 degrees apart, with the blur of the film', () => {
    const { frames, blurDeg } = plan({ frameCount: 12 });
    expect(frames.map(({ angleDeg }) => Math.round(angleDeg))).toEqual([
      30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330, 0,
    ]);
    expect(blurDeg).toBeCloseTo(0.75, 12);
  });

  it('refuses a table that stands still, and a shutter longer than a frame', () => {
    expect(planTurn({ ...asked, rpm: 0 })).toMatchObject({
      ok: false,
      error: expect.stringContaining('turntable.rpm'),
    });
    expect(planTurn({ ...asked, shutterS: 0.1 })).toMatchObject({
      ok: false,
      error: expect.stringContaining('camera.shutterS'),
    });
  });
});

describe('flicker', () => {
  // |sinc(2 f t)|, sinc(x) = sin(pi x) / (pi x); derived.
  it('leaves 3.9545 % of the ripple of 50 Hz at 1/48 s, 16.54 % at 1/60 and 23.39 % at 1/125', () => {
    expect(residualRipple(50, 1 / 48)).toBeCloseTo(0.039545, 6);
    expect(residualRipple(50, 1 / 60)).toBeCloseTo(0.165399, 6);
    expect(residualRipple(50, 1 / 125)).toBeCloseTo(0.233872, 6);
    expect(residualRipple(60, 1 / 48)).toBeCloseTo(0.127324, 6);
    expect(residualRipple(60, 1 / 50)).toBeCloseTo(0.126138, 6);
  });

  it('leaves none at 1/100, 1/50, 3/100 and 1/25 s on 50 Hz', () => {
    expect(quietShuttersS(50, 4)).toEqual([0.01, 0.02, 0.03, 0.04]);
    for (const shutterS of quietShuttersS(60, 4)) expect(residualRipple(60, shutterS)).toBeCloseTo(0, 12);
  });
});
