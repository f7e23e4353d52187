import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, grip, matteSheet, panel, piece, scene } from './helpers/scenes.ts';

const wall = piece({
  kind: 'wall',
  id: 'wall',
  name: 'Wall',
  positionM: [0, 0, -1],
  widthM: 3,
  heightM: 1.5,
  finish: { type: 'matte', reflectanceRgb: [0.4, 0.4, 0.4] },
});
const light = (id: string, x: number, lux: number, patch: Record<string, unknown> = {}) =>
  panel({
    id,
    name: id,
    positionM: [x, 0.6, 1.2],
    aimM: [0, 0.08, 0],
    widthM: 0.3,
    heightM: 0.3,
    output: { unit: 'luxAtDistance', value: lux, distanceM: 1.5 },
    ...patch,
  });
const set = (fixtures: FrameScene['fixtures']): FrameScene =>
  scene({
    pieces: [matteSheet(0.2), wall, block()],
    fixtures,
    camera: camera({ positionM: [0, 0.3, 1.5], aimM: [0, 0.15, 0], focalLengthMm: 50, focusDistanceM: 1.5 }),
  });
const check = (of: FrameScene, limits = {}, remedies = false): CheckResult =>
  checkFrame(of, { checks: ['ratios'], limits, remedies });
const find = ({ findings }: CheckResult, id: string): Finding | undefined => findings.find((f) => f.id === id);
const KEY_TO_FILL = 'ratios:key-to-fill';
const TO_BACKGROUND = 'ratios:subject-to-background';

describe('ratios', () => {
  const two = set([light('key', -0.8, 4000), light('fill', 0.8, 1000)]);

  it('says key to fill in stops and as a ratio, and judges nothing that the frame does not ask for', () => {
    const finding = find(check(two), KEY_TO_FILL);
    expect(finding?.grade).toBe('ok');
    expect(finding?.limit).toBeNull();
    expect(finding?.value).toBeGreaterThan(1.7);
    expect(finding?.value).toBeLessThan(2.6);
    expect(finding?.summary).toMatch(
      /^key is the key; with fill over fill is [\d.]+ stops \([\d.]+ : 1\), fill gives \d+ %/,
    );
    expect(find(check(two), TO_BACKGROUND)?.grade).toBe('ok');
  });

  it('fires when the key is stronger than wanted, and the dimmer that it offers puts it right', () => {
    const limits = { keyToFillMaxStops: 1.5 };
    const finding = find(check(two, limits, true), KEY_TO_FILL);
    expect(finding?.grade).toBe('care');
    expect(finding?.limit).toBe(1.5);
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toMatch(/^Dim key by [\d.]+ stops$/);
    if (remedy) expect(find(check(applyChanges(two, remedy.changes), limits), KEY_TO_FILL)?.grade).toBe('ok');
  });

  it('dims the fill when the picture is too flat', () => {
    const limits = { keyToFillMinStops: 3 };
    const remedy = find(check(two, limits, true), KEY_TO_FILL)?.remedies[0];
    expect(remedy?.label).toMatch(/^Dim fill by/);
    if (remedy) expect(find(check(applyChanges(two, remedy.changes), limits), KEY_TO_FILL)?.grade).toBe('ok');
  });

  it('holds the background down with the light that lights it most', () => {
    const wash = light('wash', 1.2, 6000, { positionM: [1.2, 0.8, 0.1], aimM: [0, 0.4, -1] });
    const before = set([light('key', -0.8, 3000), wash]);
    const limits = { subjectToBackgroundMinStops: 1 };
    const finding = find(check(before, limits, true), TO_BACKGROUND);
    expect(finding?.grade).toBe('care');
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toMatch(/^Dim wash by/);
    if (remedy) expect(find(check(applyChanges(before, remedy.changes), limits), TO_BACKGROUND)?.grade).toBe('ok');
  });

  it('says so when there is no fill at all', () => {
    const alone = scene({
      pieces: [],
      fixtures: [light('key', -0.8, 4000)],
      subject: { pieceId: 'gone', meterPointM: [0, 0.08, 0] },
    });
    const finding = find(check(alone), KEY_TO_FILL);
    expect(finding?.summary).toContain('there is no fill');
    expect((check(alone).figures.ratios as Record<string, unknown>).keyToFillStops).toBeNull();
  });

  it('counts a bounce card of the one light as its fill', () => {
    const card = grip({
      kind: 'bounceCard',
      id: 'card',
      name: 'Card',
      positionM: [0.35, 0.15, 0.2],
      aimM: [0, 0.08, 0],
      widthM: 0.4,
      heightM: 0.4,
    });
    const result = check({ ...set([light('key', -0.8, 4000)]), pieces: [block()], grip: [card] });
    const finding = find(result, KEY_TO_FILL);
    expect(finding?.subject).toBe('key');
    expect(finding?.value).toBeGreaterThan(1);
    expect(finding?.value).toBeLessThan(6);
    const { lightLux } = result.figures.ratios as { lightLux: Record<string, number> };
    expect(Object.keys(lightLux)).toEqual(['key', 'card']);
  });

  it('says nothing without light', () => {
    expect(check(set([])).findings).toEqual([]);
  });

  it('gives shares that add up to one on subject and background, whatever the lights', () => {
    const lux = fc.double({ min: 10, max: 20000, noNaN: true });
    fc.assert(
      fc.property(lux, lux, fc.double({ min: -1, max: 1, noNaN: true }), (a, b, x) => {
        const { shares, keyToFillStops } = check(set([light('a', -1, a), light('b', x, b)])).figures.ratios as {
          shares: { subjectShare: number; backgroundShare: number }[];
          keyToFillStops: number;
        };
        expect(shares.reduce((sum, s) => sum + s.subjectShare, 0)).toBeCloseTo(1, 9);
        expect(shares.reduce((sum, s) => sum + s.backgroundShare, 0)).toBeCloseTo(1, 9);
        // The key's own part of what comes off the table fills: no more than all of it.
        const key = Math.max(...shares.map((s) => s.subjectShare));
        expect(keyToFillStops).toBeLessThanOrEqual(-Math.log2(1 - key) + 1e-9);
        expect(keyToFillStops).toBeGreaterThan(0);
      }),
      { seed: 21, numRuns: 8 },
    );
  });
});
