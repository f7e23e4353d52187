import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, matteSheet, panel, piece, scene } from './helpers/scenes.ts';

const wall = piece({
  kind: 'wall',
  id: 'wall',
  name: 'Wall',
  positionM: [0, -0.2, -1],
  widthM: 3,
  heightM: 2,
  finish: { type: 'matte', reflectanceRgb: [0.4, 0.4, 0.4] },
});
const hard = (id: string, positionM: Vec3, aimM: Vec3, lux = 5000, patch: Record<string, unknown> = {}) =>
  panel({
    id,
    name: id,
    positionM,
    aimM,
    widthM: 0.08,
    heightM: 0.08,
    output: { unit: 'luxAtDistance', value: lux, distanceM: 1.5 },
    ...patch,
  });
const set = (fixtures: FrameScene['fixtures']): FrameScene =>
  scene({
    pieces: [matteSheet(0.2), wall, block()],
    fixtures,
    camera: camera({ positionM: [0, 0.3, 1.5], aimM: [0, 0.2, 0], focalLengthMm: 50, focusDistanceM: 1.5 }),
  });
const check = (of: FrameScene, remedies = false, limits = {}): CheckResult =>
  checkFrame(of, { checks: ['lightDirection'], remedies, limits });
const only = ({ findings }: CheckResult): Finding | undefined => findings[0];

describe('direction of light', () => {
  it('is ok under one far light, and says so in one sentence', () => {
    const finding = only(check(set([hard('sun', [-3, 3, 2], [0, 0, -0.4])])));
    expect(finding?.grade).toBe('ok');
    expect(finding?.value).toBeLessThan(30);
    expect(finding?.summary).toMatch(/comes from one side, within \d+ degrees\.$/);
  });

  it('fires when the wall is lit from the other side than the subject: two suns', () => {
    const finding = only(
      check(
        set([
          hard('sun', [-1.2, 1, 0.4], [0, 0.05, 0.1], 9000, { gridCutoffDeg: 30 }),
          hard('wash', [1.4, 0.6, -0.4], [0, 0.3, -1]),
        ]),
      ),
    );
    expect(finding?.grade).toBe('care');
    expect(finding?.value).toBeGreaterThan(90);
    expect(finding?.summary).toMatch(/^sun and wash light .* degrees apart: it looks like two suns\.$/);
    expect(finding?.where.raysM).toHaveLength(2);
  });

  it('is no more than a note where one of them is soft', () => {
    const soft = { widthM: 1.2, heightM: 1.2 };
    const finding = only(
      check(
        set([hard('window', [-1.2, 1, 0.4], [0, 0.05, 0.1], 5000, soft), hard('wash', [1.4, 0.6, -0.4], [0, 0.3, -1])]),
      ),
    );
    expect(finding?.value).toBeGreaterThan(45);
    expect(finding?.grade).toBe('note');
  });

  it('fires on one light that stands too near, and offers to draw it back', () => {
    const before = set([hard('lamp', [0, 0.9, -0.4], [0, 0, -0.6])]);
    const finding = only(check(before, true));
    expect(finding?.grade).toBe('care');
    expect(finding?.summary).toContain('lamp lights');
    const remedy = finding?.remedies[0];
    if (!remedy) throw new Error('no remedy');
    expect(remedy.label).toMatch(/^Move lamp [\d.]+ m back: \d+ degrees apart$/);
    expect(only(check(applyChanges(before, remedy.changes)))?.grade).toBe('ok');
  });

  it('takes the angle that the frame allows', () => {
    const of = set([
      hard('sun', [-1.2, 1, 0.4], [0, 0.05, 0.1], 9000, { gridCutoffDeg: 30 }),
      hard('wash', [1.4, 0.6, -0.4], [0, 0.3, -1]),
    ]);
    expect(only(check(of, false, { lightDirectionCareDeg: 180 }))?.grade).toBe('ok');
  });

  it('has nothing to say without light', () => {
    expect(check(set([])).findings).toEqual([]);
  });

  it('does not change when everything is brighter, and agrees the more the farther the light', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: Math.PI, noNaN: true }),
        fc.double({ min: 0.6, max: 1.2, noNaN: true }),
        (angle, r) => {
          const at = (times: number, lux: number): number => {
            const p: Vec3 = [r * times * Math.cos(angle), 0.9 * times, r * times * Math.sin(angle)];
            return only(check(set([hard('sun', p, [0, 0, -0.3], lux)])))?.value ?? 0;
          };
          expect(at(1, 9000)).toBeCloseTo(at(1, 900), 9);
          expect(at(4, 9000)).toBeLessThan(at(1, 9000));
        },
      ),
      { seed: 14, numRuns: 8 },
    );
  });
});
