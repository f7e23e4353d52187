import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  applyChanges,
  type CheckResult,
  checkFrame,
  type Finding,
  VEILING_GLARE_INDEX,
} from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, grip, matteSheet, panel, scene } from './helpers/scenes.ts';

const check = (of: FrameScene, remedies = false): CheckResult => checkFrame(of, { checks: ['flare'], remedies });
const onLens = ({ findings }: CheckResult, id = 'back-panel'): Finding | undefined =>
  findings.find((finding) => finding.id === `flare:${id}:on-lens`);
const inFrame = ({ findings }: CheckResult, id: string): Finding | undefined =>
  findings.find((finding) => finding.id === `flare:${id}:in-frame`);

const FAST = { shutterS: 1 / 30, apertureFNumber: 8 };
const BRIGHT = { output: { unit: 'luxAtDistance', value: 20000, distanceM: 1 } };
/** A strong panel over and behind the hero, its face toward the lens. */
const lit = (parts: Partial<FrameScene> = {}): FrameScene =>
  scene({ pieces: [matteSheet(), block()], fixtures: [panel(BRIGHT)], camera: camera(FAST), ...parts });

describe('flare', () => {
  it('finds a panel behind the set that lights the front element, graded stop, with its angle and rays', () => {
    const finding = onLens(check(lit()));
    expect(finding?.grade).toBe('stop');
    expect(finding?.value).toBeCloseTo(1, 6);
    // Panel at (0, .75, -.9), lens at (0, .35, 1.2), axis down to (0, .07, 0): 10.78 + 13.13 = 23.9 degrees.
    expect(finding?.summary).toContain('24 degrees off the axis');
    expect(finding?.where.raysM?.length).toBeGreaterThan(0);
    for (const ray of finding?.where.raysM ?? []) expect(ray[0]).toEqual([0, 0.35, 1.2]);
  });

  it('stays quiet about a panel behind the camera', () => {
    expect(check(lit({ fixtures: [panel({ ...BRIGHT, positionM: [0.5, 0.8, 2.5] })] })).findings).toEqual([]);
  });

  it('stays quiet about a panel beside the set that faces away from the lens', () => {
    expect(check(lit({ fixtures: [panel({ ...BRIGHT, aimM: [0, 0.5, -4] })] })).findings).toEqual([]);
  });

  it('stays quiet when barn doors cut the way to the lens', () => {
    const doors = { lengthM: 0.5, topDeg: 100, bottomDeg: 100, leftDeg: 100, rightDeg: 100 };
    const open = lit({ fixtures: [panel({ ...BRIGHT, aimM: [0, 0.75, 3], barnDoors: doors })] });
    const shut = lit({ fixtures: [panel({ ...BRIGHT, aimM: [0, 0.75, 3], barnDoors: { ...doors, bottomDeg: 1 } })] });
    expect(onLens(check(open))).toBeDefined();
    expect(onLens(check(shut))).toBeUndefined();
  });

  it('stays quiet when a flag stands in the way, and speaks again when it is too short', () => {
    const flag = (heightM: number) =>
      grip({
        kind: 'flag',
        id: 'flag',
        name: 'Flag',
        positionM: [0, 0.75, -0.5],
        aimM: [0, 0.75, 1],
        widthM: 1.2,
        heightM,
      });
    expect(onLens(check(lit({ grip: [flag(0.9)] })))).toBeUndefined();
    expect(onLens(check(lit({ grip: [flag(0.05)] })))).toBeDefined();
  });

  it('is only a note when the veil is too weak to lift black', () => {
    const dim = panel({ output: { unit: 'luxAtDistance', value: 20, distanceM: 1 } });
    expect(onLens(check(lit({ fixtures: [dim] })))?.grade).toBe('note');
  });

  it('estimates the veil as VGI x E / pi', () => {
    const { figures } = check(lit());
    const flare = figures.flare as { veilNits: number; frontElementLux: Record<string, number> };
    expect(flare.veilNits).toBeCloseTo((VEILING_GLARE_INDEX * flare.frontElementLux['back-panel']) / Math.PI, 9);
  });

  it('gives the illuminance on the lens as inverse square and cosines do, within 2 %', () => {
    // Small Lambert panel, 1000 cd: I cos(at the panel) cos(at the lens) / d^2 with d^2 = .4^2 + 2.1^2 = 4.57.
    const small = panel({
      widthM: 0.05,
      heightM: 0.05,
      output: { unit: 'peakCandela', value: 1000 },
      aimM: [0, 0.35, 1.2],
    });
    const { figures } = check(lit({ fixtures: [small] }));
    const { frontElementLux } = figures.flare as { frontElementLux: Record<string, number> };
    const offAxis = Math.atan2(0.4, 2.1) + Math.atan2(0.28, 1.2);
    expect(frontElementLux['back-panel'] / ((1000 * Math.cos(offAxis)) / 4.57)).toBeCloseTo(1, 2);
  });

  it('doubles the light on the lens and keeps the share when every fixture is doubled', () => {
    const at = (value: number): CheckResult =>
      check(lit({ fixtures: [panel({ output: { unit: 'luxAtDistance', value, distanceM: 1 } })] }));
    const [one, two] = [at(20000), at(40000)];
    expect(onLens(two)?.value).toBeCloseTo(onLens(one)?.value ?? 0, 12);
    const lux = (of: CheckResult): number =>
      (of.figures.flare as { frontElementLux: Record<string, number> }).frontElementLux['back-panel'];
    expect(lux(two) / lux(one)).toBeCloseTo(2, 9);
  });

  it('lights the lens the less the farther a flag comes down, whatever the strength and place of the panel', () => {
    const share = (bottomM: number, value: number, xM: number): number => {
      const of = lit({
        fixtures: [panel({ positionM: [xM, 0.75, -0.9], output: { unit: 'luxAtDistance', value, distanceM: 1 } })],
        grip: [
          grip({
            kind: 'flag',
            id: 'flag',
            name: 'Flag',
            positionM: [0, bottomM + 0.3, 0.9],
            aimM: [0, bottomM + 0.3, 1.9],
            widthM: 1.2,
            heightM: 0.6,
          }),
        ],
      });
      return onLens(check(of))?.value ?? 0;
    };
    fc.assert(
      fc.property(
        fc.double({ min: 1000, max: 40000, noNaN: true }),
        fc.double({ min: -0.4, max: 0.4, noNaN: true }),
        (value, xM) => {
          const shares = [0.5, 0.43, 0.4, 0.37, 0.34].map((bottomM) => share(bottomM, value, xM));
          for (let i = 1; i < shares.length; i++) expect(shares[i]).toBeLessThanOrEqual(shares[i - 1] + 1e-12);
          expect(shares[0]).toBeCloseTo(1, 6);
          expect(share(0.42, value, xM)).toBeCloseTo(share(0.42, value / 2, xM), 9);
        },
      ),
      { seed: 62, numRuns: 4 },
    );
  });

  it('finds a lamp in the frame: stop for a panel that clips, care for a bulb, note for one under clipping', () => {
    const shown = panel({ ...BRIGHT, positionM: [0, 0.15, -0.5], aimM: [0, 0.15, 1] });
    expect(inFrame(check(lit({ fixtures: [shown] })), 'back-panel')?.grade).toBe('stop');
    const bulb = (lumens: number) =>
      fixture({
        kind: 'bulb',
        id: 'lantern',
        name: 'Lantern',
        positionM: [0.1, 0.1, -0.2],
        aimM: [0, 0, 0],
        output: { unit: 'lumens', value: lumens },
      });
    expect(inFrame(check(lit({ fixtures: [bulb(2000)] })), 'lantern')?.grade).toBe('care');
    expect(inFrame(check(lit({ fixtures: [bulb(2)] })), 'lantern')?.grade).toBe('note');
  });

  it('stays quiet about a lamp in the field of view that the hero hides', () => {
    const hidden = fixture({
      kind: 'bulb',
      id: 'lantern',
      name: 'Lantern',
      positionM: [0, 0.03, -0.1],
      aimM: [0, 0, 0],
      diameterM: 0.02,
      output: { unit: 'lumens', value: 800 },
    });
    expect(inFrame(check(lit({ fixtures: [hidden] })), 'lantern')).toBeUndefined();
  });

  it('offers a flag that takes all light off the lens, out of frame, and leaves the subject lit', () => {
    const before = lit();
    const remedy = onLens(check(before, true))?.remedies.find(({ label }) => label.startsWith('Add a flag'));
    expect(remedy).toBeDefined();
    if (!remedy) return;
    const after = applyChanges(before, remedy.changes);
    expect(onLens(check(after))).toBeUndefined();
    const lux = (of: FrameScene): unknown => {
      const { exposure } = checkFrame(of, { checks: ['exposure'] }).figures as {
        exposure: { incidentDome: { lux: number }; clippedShare: number };
      };
      return Math.round(exposure.incidentDome.lux);
    };
    expect(lux(after)).toBe(lux(before));
    // No ray through the lens centre meets the flag.
    const { input } = checkFrame(after, { checks: [] });
    for (let i = 0; i <= 40; i++) {
      for (const [u, v] of [
        [i / 40, 0],
        [i / 40, 1],
        [0, i / 40],
        [1, i / 40],
      ]) {
        const d = input.view.forward.map(
          (f, k) =>
            f +
            input.view.right[k] * (2 * u - 1) * input.view.tanHalfWidth +
            input.view.up[k] * (1 - 2 * v) * input.view.tanHalfHeight,
        );
        const length = Math.hypot(...d);
        const hit = input.query.closestHit(input.view.originM, [d[0] / length, d[1] / length, d[2] / length]);
        expect(hit && input.set.surfaces[hit.surfaceIndex].recordId.startsWith('flag')).not.toBe(true);
      }
    }
  });

  it('offers to extend the top flag of a matte box, and that is enough', () => {
    const matteBox = { innerWidthM: 0.4, innerHeightM: 0.2, depthM: 0.1, topFlagM: 0, sideFlagsM: 0 };
    const before = lit({ camera: camera({ ...FAST, matteBox }) });
    const remedy = onLens(check(before, true))?.remedies.find(({ label }) => label.startsWith('Extend the top flag'));
    expect(remedy).toBeDefined();
    if (!remedy) return;
    expect(onLens(check(applyChanges(before, remedy.changes)))).toBeUndefined();
  });

  it('counts the matte box: a deep one keeps the panel off the lens by itself', () => {
    const matteBox = { innerWidthM: 0.2, innerHeightM: 0.14, depthM: 0.28, topFlagM: 0, sideFlagsM: 0 };
    expect(onLens(check(lit({ camera: camera({ ...FAST, matteBox }) })))).toBeUndefined();
  });
});
