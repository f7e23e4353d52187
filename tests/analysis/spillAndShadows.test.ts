import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, grip, matteSheet, panel, scene, tonic } from './helpers/scenes.ts';

const lamp = (id: string, positionM: Vec3, lux = 4000, patch: Record<string, unknown> = {}) =>
  panel({
    id,
    name: id,
    positionM,
    aimM: [0, 0.05, 0],
    widthM: 0.06,
    heightM: 0.06,
    output: { unit: 'luxAtDistance', value: lux, distanceM: 1 },
    ...patch,
  });
const lit = (fixtures: FrameScene['fixtures'], parts: Partial<FrameScene> = {}): FrameScene =>
  scene({ pieces: [matteSheet(), block()], fixtures, ...parts });
const check = (of: FrameScene, remedies = false, limits = {}): CheckResult =>
  checkFrame(of, { checks: ['spillAndShadows'], remedies, limits });
const count = ({ findings }: CheckResult): Finding | undefined =>
  findings.find(({ id }) => id === 'spillAndShadows:count');

const KEY = lamp('key', [-0.8, 0.8, 0.3]);
const SECOND = lamp('second', [0.7, 0.9, 0.4], 3000);

describe('spill and shadows', () => {
  it('is ok with one light and one shadow, and says which way it falls, how long, how deep and how soft', () => {
    const finding = count(check(lit([KEY])));
    expect(finding?.grade).toBe('ok');
    expect(finding?.value).toBe(1);
    expect(finding?.summary).toMatch(
      /^1 shadow of Stand-in on the sheet\. key: to the right, \d+ cm long, [\d.]+ stops deep, .* soft at the tip\.$/,
    );
    expect(finding?.where.raysM?.[0]).toHaveLength(3);
  });

  it('fires on a second shadow, names it, and puts a third at stop', () => {
    const two = check(lit([KEY, SECOND]));
    expect(count(two)?.grade).toBe('care');
    expect(count(two)?.value).toBe(2);
    expect(two.findings.map(({ id }) => id)).toContain('spillAndShadows:second');
    const three = check(lit([KEY, SECOND, lamp('third', [0.1, 0.8, -0.9], 3000)]));
    expect(count(three)?.grade).toBe('stop');
    expect(count(three)?.value).toBe(3);
  });

  it('stays quiet when the frame wants two', () => {
    expect(count(check(lit([KEY, SECOND]), false, { shadowCount: 2 }))?.grade).toBe('ok');
  });

  it('counts two lights side by side as one shadow', () => {
    const beside = lamp('beside', [-0.8, 0.8, 0.45]);
    expect(count(check(lit([KEY, beside])))?.value).toBe(1);
  });

  it('does not count a light too weak to draw a shadow, but lists what it spills', () => {
    const result = check(lit([KEY, lamp('second', [0.7, 0.9, 0.4], 200)]));
    expect(count(result)?.value).toBe(1);
    const { spillLux } = result.figures.spillAndShadows as { spillLux: Record<string, number> };
    expect(Object.keys(spillLux).sort()).toEqual(['key', 'second']);
  });

  it('leaves out a light that is flagged off the table', () => {
    const flag = grip({
      kind: 'flag',
      id: 'flag',
      name: 'Flag',
      positionM: [0.35, 0.48, 0.2],
      aimM: [0, 0.05, 0],
      widthM: 0.5,
      heightM: 0.5,
    });
    const result = check(lit([KEY, SECOND], { grip: [flag] }));
    expect(count(result)?.value).toBe(1);
    const { spillLux } = result.figures.spillAndShadows as { spillLux: Record<string, number> };
    expect(Object.keys(spillLux)).toEqual(['key']);
  });

  it('softens with the size of the light', () => {
    const soft = (widthM: number): number => {
      const { figures } = check(lit([lamp('key', [-0.8, 0.8, 0.3], 4000, { widthM, heightM: widthM })]));
      return (figures.spillAndShadows as { shadows: { tipPenumbraM: number }[] }).shadows[0].tipPenumbraM;
    };
    expect(soft(0.3) / soft(0.1)).toBeGreaterThan(2.7);
    expect(soft(0.3) / soft(0.1)).toBeLessThan(3.6);
  });

  it('counts a lit diffusion frame as the light that it is', () => {
    const cloth = grip({
      kind: 'diffusionFrame',
      id: 'cloth',
      name: 'Cloth',
      positionM: [-0.45, 0.55, 0.17],
      aimM: [0, 0.05, 0],
      widthM: 0.4,
      heightM: 0.4,
    });
    const finding = count(check(lit([lamp('key', [-0.8, 0.9, 0.3])], { grip: [cloth] })));
    expect(finding?.subject).toBe('cloth');
    expect(finding?.value).toBe(1);
  });

  it('treats a filled glass as solid', () => {
    const finding = count(check(lit([KEY], { pieces: [matteSheet(), tonic()] })));
    expect(finding?.value).toBe(1);
    expect(finding?.summary).toContain('Tonic');
  });

  it('says when a light stands lower than the hero, so that its shadow never ends', () => {
    const low = lamp('low', [-0.8, 0.1, 0.2]);
    const finding = count(check(lit([low])));
    expect(finding?.summary).toContain('without end');
    expect(Number.isFinite(finding?.value ?? Number.NaN)).toBe(true);
  });

  it('offers a dimmer setting that leaves one shadow, true when it is made', () => {
    const before = lit([KEY, SECOND]);
    const remedy = count(check(before, true))?.remedies[0];
    expect(remedy?.label).toMatch(/^Dim second by [\d.]+ stops: one shadow is left$/);
    if (remedy) expect(count(check(applyChanges(before, remedy.changes)))?.grade).toBe('ok');
  });

  it('has nothing to say without light or without a hero', () => {
    expect(check(lit([])).findings).toEqual([]);
    expect(check(lit([KEY], { subject: { pieceId: 'gone', meterPointM: [0, 0.1, 0] } })).findings).toEqual([]);
  });

  it('never depends on how bright all lights are, and turns with the light', () => {
    const angles = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true });
    fc.assert(
      fc.property(angles, fc.double({ min: 0.5, max: 1.4, noNaN: true }), (angle, height) => {
        const at = (lux: number) => {
          const key = lamp('key', [0.8 * Math.cos(angle), height, 0.8 * Math.sin(angle)], lux);
          const { figures } = check(lit([key, lamp('second', [0, 1.2, 0.9], lux / 3)]));
          return (figures.spillAndShadows as { shadows: Record<string, number>[] }).shadows;
        };
        const [one, ten] = [at(1000), at(10000)];
        expect(ten.map((s) => s.depthStops)).toEqual(one.map((s) => expect.closeTo(s.depthStops, 6)));
        const key = one.find((s) => String(s.fixtureId) === 'key');
        const expected = (((-(angle * 180) / Math.PI + 180) % 360) + 360) % 360;
        const got = (((key?.directionDeg ?? 0) % 360) + 360) % 360;
        expect(Math.min(Math.abs(got - expected), 360 - Math.abs(got - expected))).toBeLessThan(0.5);
      }),
      { seed: 5, numRuns: 12 },
    );
  });

  it('finds an unlit bulb harmless', () => {
    const off = fixture({
      kind: 'bulb',
      id: 'off',
      name: 'Off',
      positionM: [0.4, 0.4, 0.2],
      aimM: [0, 0, 0],
      on: false,
      output: { unit: 'lumens', value: 800 },
    });
    expect(count(check(lit([KEY, off], { camera: camera() })))?.value).toBe(1);
  });
});
