import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
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
const light = (id: string, x: number, cctK: number, lux = 3000, patch: Record<string, unknown> = {}) =>
  panel({
    id,
    name: id,
    positionM: [x, 0.7, 1],
    aimM: [0, 0.1, 0],
    cctK,
    output: { unit: 'luxAtDistance', value: lux, distanceM: 1.2 },
    ...patch,
  });
const set = (fixtures: FrameScene['fixtures']): FrameScene =>
  scene({
    pieces: [matteSheet(0.2), wall, block()],
    fixtures,
    camera: camera({ positionM: [0, 0.3, 1.5], aimM: [0, 0.2, 0], focalLengthMm: 50, focusDistanceM: 1.5 }),
  });
const check = (of: FrameScene, remedies = false, limits = {}): CheckResult =>
  checkFrame(of, { checks: ['colourMix'], remedies, limits });
const find = ({ findings }: CheckResult, place: string): Finding | undefined =>
  findings.find(({ id }) => id === `colourMix:${place}`);

describe('mixed light', () => {
  it('is ok with two lights of one colour', () => {
    const finding = find(check(set([light('key', -0.8, 5600), light('fill', 0.8, 5500, 1500)])), 'subject');
    expect(finding?.grade).toBe('ok');
    expect(finding?.summary).toMatch(/of one colour, within \d mired\.$/);
  });

  it('fires on tungsten in daylight, on subject and wall, with mired and dE2000', () => {
    const result = check(set([light('key', -0.8, 5600), light('fill', 0.8, 3200, 1500)]));
    for (const place of ['subject', 'wall']) {
      expect(find(result, place)?.grade, place).toBe('care');
      expect(find(result, place)?.value).toBeCloseTo(133.93, 1);
    }
    expect(find(result, 'subject')?.summary).toMatch(
      /^On the subject fill \(3200 K, \d+ % of the light\) is 134 mired warmer than key \(5600 K\), dE2000 [\d.]+\.$/,
    );
  });

  it('notes a small difference, and takes no account of a light that hardly counts', () => {
    expect(find(check(set([light('key', -0.8, 5600), light('fill', 0.8, 4800, 1500)])), 'subject')?.grade).toBe('note');
    expect(find(check(set([light('key', -0.8, 5600), light('fill', 0.8, 3200, 60)])), 'subject')).toBeUndefined();
  });

  it('offers the setting and the gel that bring the two together, each true when it is made', () => {
    const before = set([light('key', -0.8, 5600), light('fill', 0.8, 3200, 1500)]);
    const remedies = find(check(before, true), 'subject')?.remedies ?? [];
    expect(remedies.map(({ label }) => label)).toEqual([
      'Set fill to 5600 K, if it can be set',
      expect.stringMatching(/^Put full CTB on fill: 0 mired apart, [\d.]+ stops less light$/),
    ]);
    for (const remedy of remedies)
      expect(find(check(applyChanges(before, remedy.changes)), 'subject')?.grade ?? 'ok', remedy.label).toBe('ok');
  });

  it('sees the light behind its gels', () => {
    const gelled = light('fill', 0.8, 3200, 4000, { gels: [{ kind: 'ctb', strength: 'full' }] });
    expect(find(check(set([light('key', -0.8, 5600), gelled])), 'subject')?.grade).toBe('ok');
  });

  it('takes the limits that the frame states', () => {
    const of = set([light('key', -0.8, 5600), light('fill', 0.8, 3200, 1500)]);
    expect(find(check(of, false, { mixNoteMired: 140, mixCareMired: 200 }), 'subject')?.grade).toBe('ok');
  });

  it('fires on a green tube beside a white light, of equal colour temperature, and stays quiet under 0.006 Duv', () => {
    const green = set([light('key', -0.8, 5600), light('fill', 0.8, 5600, 1500, { duv: 0.02 })]);
    expect(find(check(green), 'subject:tint')).toMatchObject({ grade: 'care', subject: 'fill' });
    expect(find(check(green), 'subject:tint')?.value).toBeCloseTo(0.02, 12);
    expect(find(check(green), 'subject:tint')?.summary).toMatch(/is 0\.020 Duv greener than key\.$/);
    expect(find(check(green), 'subject')?.grade).toBe('ok');
    const near = set([light('key', -0.8, 5600), light('fill', 0.8, 5600, 1500, { duv: -0.005 })]);
    expect(find(check(near), 'subject:tint')).toBeUndefined();
    const pink = set([light('key', -0.8, 5600), light('fill', 0.8, 5600, 1500, { duv: -0.009 })]);
    expect(find(check(pink), 'subject:tint')).toMatchObject({ grade: 'note' });
    expect(find(check(green, false, { tintNoteDuv: 0.03 }), 'subject:tint')).toBeUndefined();
  });

  it('offers the setting and the gel that take the green off, each true when it is made', () => {
    const before = set([light('key', -0.8, 5600), light('fill', 0.8, 5600, 1500, { duv: 0.02 })]);
    const remedies = find(check(before, true), 'subject:tint')?.remedies ?? [];
    expect(remedies.map(({ label }) => label)).toEqual([
      'Set the tint of fill to Duv 0, if it can be set',
      expect.stringMatching(/^Put full minus green on fill: 0\.000 Duv apart, [\d.]+ stops less light$/),
    ]);
    for (const remedy of remedies)
      expect(find(check(applyChanges(before, remedy.changes)), 'subject:tint'), remedy.label).toBeUndefined();
  });

  it('calls lights of one colour only when they are, however much the frame allows', () => {
    const of = set([light('key', -0.8, 5600), light('fill', 0.8, 3200, 1500)]);
    const finding = find(check(of, false, { mixNoteMired: 400, mixCareMired: 400 }), 'subject');
    expect(finding?.grade).toBe('ok');
    expect(finding?.summary).toBe(
      'The lights on the subject lie 134 mired apart, within the 400 that this frame allows.',
    );
  });

  it('has nothing to say of one light', () => {
    expect(check(set([light('key', -0.8, 5600)])).findings).toEqual([]);
  });

  it('is the same whichever of two alike lights is called the other, and zero for equal colours', () => {
    const kelvin = fc.double({ min: 2000, max: 9000, noNaN: true });
    fc.assert(
      fc.property(kelvin, kelvin, (a, b) => {
        const value = (x: number, y: number): number =>
          find(check(set([light('key', -0.8, x, 3000), light('fill', 0.8, y, 2900)])), 'subject')?.value ?? -1;
        expect(value(a, b)).toBeCloseTo(value(b, a), 6);
        expect(value(a, a)).toBeCloseTo(0, 9);
      }),
      { seed: 41, numRuns: 6 },
    );
  });
});
