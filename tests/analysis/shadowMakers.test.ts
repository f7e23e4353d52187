import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import { isPointInFrame } from '../../src/analysis/places/inFrame.ts';
import { cameraView } from '../../src/camera/projection.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, grip, matteSheet, panel, piece, scene } from './helpers/scenes.ts';

const wall = piece({
  kind: 'wall',
  id: 'wall',
  name: 'Wall',
  positionM: [0, -0.2, -0.8],
  widthM: 3,
  heightM: 2,
  finish: { type: 'matte', reflectanceRgb: [0.5, 0.5, 0.5] },
});
const LOOK = camera({ positionM: [0, 0.3, 1.5], aimM: [0, 0.25, 0], focalLengthMm: 50, focusDistanceM: 1.5 });
const set = (parts: Partial<FrameScene>): FrameScene =>
  scene({ pieces: [matteSheet(0.2), wall, block()], camera: LOOK, ...parts });
/** A spot from the left through slats on its gobo, onto the wall. */
const slats = (patch: Record<string, unknown> = {}, lensDiameterM = 0.02, pattern: Record<string, unknown> = {}) =>
  fixture({
    kind: 'spot',
    id: 'spot',
    name: 'Spot',
    positionM: [-1.2, 0.6, 0.9],
    aimM: [0.1, 0.4, -0.8],
    beamAngleDeg: 40,
    lensDiameterM,
    output: { unit: 'luxAtDistance', value: 6000, distanceM: 2 },
    gobo: {
      distanceM: 0.5,
      widthM: 0.3,
      heightM: 0.3,
      pattern: { type: 'slats', count: 6, openShare: 0.5, run: 'level', ...pattern },
      ...patch,
    },
  });
const check = (of: FrameScene, limits = {}, remedies = false): CheckResult =>
  checkFrame(of, { checks: ['shadowMakers'], limits, remedies });
const on = ({ findings }: CheckResult, maker: string): Finding | undefined =>
  findings.find(({ id }) => id.startsWith(`shadowMakers:${maker}`) && id.endsWith(':wall'));
const flagScene = (sizeM = 0.3, xM = -0.55): FrameScene =>
  set({
    fixtures: [
      panel({
        positionM: [-1.2, 0.6, 0.9],
        aimM: [0.1, 0.4, -0.8],
        widthM: sizeM,
        heightM: sizeM,
        output: { unit: 'luxAtDistance', value: 6000, distanceM: 2 },
      }),
    ],
    grip: [
      grip({
        kind: 'flag',
        id: 'flag',
        name: 'Cutter',
        positionM: [xM, 0.62, 0.2],
        aimM: [-1.2, 0.6, 0.9],
        widthM: 0.4,
        heightM: 0.25,
      }),
    ],
  });

describe('makers of shadows', () => {
  it('finds the edge of a cutter on the wall and says how soft and how deep it is', () => {
    const finding = on(check(flagScene()), 'flag');
    expect(finding?.grade).toBe('ok');
    expect(finding?.unit).toBe('m of soft edge');
    expect(finding?.value).toBeGreaterThan(0.1);
    expect(finding?.summary).toMatch(/^Cutter throws an edge .* soft of Back panel on the wall, [\d.]+ stops deep\.$/);
    expect(finding?.where.raysM?.[0]).toHaveLength(3);
  });

  it('fires when a crisp edge is wanted, and offers to move the cutter toward the wall', () => {
    const before = flagScene(0.12);
    const limits = { edgeWanted: 'crisp' as const, edgePenumbraM: 0.08 };
    const finding = on(check(before, limits, true), 'flag');
    expect(finding?.grade).toBe('care');
    expect(finding?.summary).toContain('too soft');
    const remedy = finding?.remedies[0];
    if (!remedy) return;
    expect(remedy.label).toMatch(/^Move Cutter [\d.]+ m toward what it shades, with a larger one$/);
    expect(on(check(applyChanges(before, remedy.changes), limits), 'flag')?.value).toBeLessThan(0.1);
  });

  it('fires when a soft edge is wanted and a small lamp throws a crisp one', () => {
    const limits = { edgeWanted: 'soft' as const, edgePenumbraM: 0.2 };
    const finding = on(check(flagScene(0.02), limits, true), 'flag');
    expect(finding?.grade).toBe('care');
    expect(finding?.summary).toContain('too crisp');
  });

  it('wants of one maker what is stated for it, whatever the frame wants of the others', () => {
    const of = flagScene(0.12);
    const soft = { edgeWanted: 'crisp' as const, edgePenumbraM: 0.08 };
    expect(on(check(of, soft), 'flag')?.grade).toBe('care');
    expect(on(check(of, { ...soft, edges: [{ makerId: 'flag', wanted: 'soft' }] }), 'flag')?.grade).toBe('ok');
    expect(on(check(of, { ...soft, edges: [{ makerId: 'another', wanted: 'soft' }] }), 'flag')?.grade).toBe('care');
    const alone = on(check(of, { edges: [{ makerId: 'flag', wanted: 'crisp', penumbraM: 0.08 }] }), 'flag');
    expect(alone).toMatchObject({ grade: 'care', limit: 0.08 });
    expect(on(check(of, { edges: [{ makerId: 'flag', wanted: 'crisp', penumbraM: 2 }] }), 'flag')?.grade).toBe('ok');
  });

  it('wants nothing of a plinth that stands in the picture, unless it is stated', () => {
    const plinth = piece({
      kind: 'plinthBox',
      id: 'plinth',
      name: 'Plinth',
      positionM: [0.25, 0.0051, -0.2],
      widthM: 0.1,
      depthM: 0.1,
      heightM: 0.12,
      finish: { type: 'matte', reflectanceRgb: [0.3, 0.3, 0.3] },
    });
    const base = set({ fixtures: [panel({ positionM: [0.6, 1, 0.8], widthM: 0.3, heightM: 0.3 })] });
    const of = { ...base, pieces: [plinth, ...base.pieces] };
    const limits = { edgeWanted: 'crisp' as const, edgePenumbraM: 0.005 };
    const edges = (result: CheckResult) => result.findings.filter(({ subject }) => subject === 'plinth');
    expect(edges(check(of, limits)).length).toBeGreaterThan(0);
    expect(new Set(edges(check(of, limits)).map(({ grade }) => grade))).toEqual(new Set(['ok']));
    const stated = { ...limits, edges: [{ makerId: 'plinth', wanted: 'crisp' as const }] };
    expect(edges(check(of, stated)).some(({ grade }) => grade === 'care')).toBe(true);
  });

  it('reports a maker that stands out of the frame where its edge falls in the frame', () => {
    const finding = on(check(flagScene(0.12)), 'flag');
    const { u, v } = finding?.where.frame ?? { u: -1, v: -1 };
    expect(isPointInFrame(cameraView(LOOK), flagScene(0.12).grip[0].positionM)).toBe(false);
    expect(Math.min(u, v)).toBeGreaterThan(0);
    expect(Math.max(u, v)).toBeLessThan(1);
  });

  it('lets the slats of a small lens be, and fires on those that wash out', () => {
    const crisp = on(check(set({ fixtures: [slats()] })), 'spot');
    expect(crisp?.grade).toBe('ok');
    expect(crisp?.summary).toMatch(/^The gobo of Spot throws .*; its slats keep \d+ % of their contrast\.$/);
    const washed = on(check(set({ fixtures: [slats({}, 0.15, { count: 14 })] }), {}, true), 'spot');
    expect(washed?.grade).toBe('care');
    expect(washed?.summary).toContain('wash out');
    expect(washed?.unit).toBe('share of the contrast left');
  });

  it('offers the gobo further from the lens, and that brings the slats back', () => {
    const before = set({ fixtures: [slats({ distanceM: 0.35 }, 0.1, { count: 6 })] });
    const finding = on(check(before, { patternContrastCare: 0.6 }, true), 'spot');
    expect(finding?.grade).toBe('care');
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toMatch(/^Set the gobo [\d.]+ m from the lens, \d+ % of its size$/);
    if (remedy)
      expect(on(check(applyChanges(before, remedy.changes), { patternContrastCare: 0.6 }), 'spot')?.grade).toBe('ok');
  });

  it('stays quiet without anything between light and set, and without light', () => {
    expect(check(set({ fixtures: [panel()] })).findings.filter(({ id }) => id.includes('flag'))).toEqual([]);
    expect(check({ ...flagScene(), fixtures: [] }).findings).toEqual([]);
  });

  it('grows the penumbra with the light, in proportion', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 0.25, noNaN: true }), (sizeM) => {
        const [one, two] = [sizeM, 2 * sizeM].map((s) => on(check(flagScene(s)), 'flag')?.value ?? 0);
        expect(two / one).toBeGreaterThan(1.8);
        expect(two / one).toBeLessThan(2.25);
      }),
      { seed: 31, numRuns: 6 },
    );
  });
});
