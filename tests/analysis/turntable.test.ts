import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  applyChanges,
  type CheckFrameOptions,
  type CheckResult,
  checkFrame,
  type Finding,
} from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, glossSheet, panel, scene, tonic } from './helpers/scenes.ts';

const table = (patch: Record<string, unknown> = {}) => ({
  centreM: [0, 0, 0] as [number, number, number],
  diameterM: 0.3,
  thicknessM: 0.02,
  rpm: 2,
  runOutM: 0,
  carries: ['hero', 'tonic'],
  ...patch,
});
const set = (patch: Record<string, unknown> = {}, parts: Partial<FrameScene> = {}): FrameScene =>
  scene({
    pieces: [glossSheet(), block()],
    turntable: table(patch),
    camera: camera({ shutterS: 1 / 50 }),
    ...parts,
  });
const check = (of: FrameScene, options: CheckFrameOptions = {}): CheckResult =>
  checkFrame(of, { checks: ['turntable'], sweep: false, ...options });
const find = ({ findings }: CheckResult, id: string): Finding | undefined =>
  findings.find((finding) => finding.id === `turntable:${id}`);

describe('turntable', () => {
  it('is ok on the axis, slow, at a safe shutter', () => {
    const result = check(set({ rpm: 1 }));
    for (const id of ['wobble', 'blur', 'flicker']) expect(find(result, id)?.grade, id).toBe('ok');
  });

  it('fires on a run-out of half a millimetre, with the figure in px', () => {
    const finding = find(check(set({ runOutM: 0.0005 })), 'wobble');
    expect(finding?.grade).toBe('care');
    expect(finding?.summary).toMatch(/carries Stand-in 1 mm from side to side, [\d.]+ px/);
    expect(find(check(set({ runOutM: 0.01 })), 'wobble')?.grade).toBe('stop');
  });

  it('fires on a fast turn, and the shutter that it offers holds the blur', () => {
    const before = set({ rpm: 12 });
    const finding = find(check(before), 'blur');
    expect(finding?.grade).toMatch(/care|stop/);
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toMatch(/^Shorten the shutter to 1\/\d+ s: [\d.]+ stops less light$/);
    if (remedy) expect(find(check(applyChanges(before, remedy.changes)), 'blur')?.grade).toBe('ok');
  });

  it('grades blur only where something shows that it turns', () => {
    const plain = tonic({ ice: undefined });
    const iced = tonic();
    const at = (hero: typeof plain) =>
      find(
        check(
          set({ rpm: 20 }, { pieces: [glossSheet(), hero], subject: { pieceId: 'tonic', meterPointM: [0, 0.08, 0] } }),
        ),
        'blur',
      );
    expect(at(plain)?.grade).toBe('note');
    expect(at(plain)?.summary).toContain('a plain turned glass does not show it');
    expect(at(iced)?.grade).toMatch(/care|stop/);
  });

  it('fires on a shutter out of step with the mains, and offers the nearest that is in step', () => {
    const before = set({}, { camera: camera({ shutterS: 1 / 125 }) });
    const finding = find(check(before), 'flicker');
    expect(finding?.grade).toBe('care');
    expect(finding?.value).toBeCloseTo(0.233872, 5);
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toMatch(/^Set the shutter to 1\/100 s \(86\.4 degrees\): 0\.3 stops more light, no flicker$/);
    if (remedy) expect(find(check(applyChanges(before, remedy.changes)), 'flicker')?.grade).toBe('ok');
  });

  it('knows that 25 frames a second run in step with 50 Hz', () => {
    const capture = { kind: 'turn', framesPerS: 25, pictureWidthPx: 3840 } as const;
    const finding = find(check(set({}, { camera: camera({ shutterS: 1 / 125 }) }), { capture }), 'flicker');
    expect(finding?.grade).toBe('ok');
    expect(finding?.summary).toContain('in step');
  });

  it('says nothing of a still, of a set without a turntable, or of a subject that does not turn', () => {
    const still = { kind: 'still', framesPerS: 24, pictureWidthPx: 3840 } as const;
    expect(check(set(), { capture: still }).findings).toEqual([]);
    expect(check(scene()).findings).toEqual([]);
    expect(check(set({ carries: [] })).findings).toEqual([]);
  });

  it('follows the highlights of a bright panel over a turning glass, and finds them clip', () => {
    const side = panel({
      positionM: [0.7, 0.4, 0.5],
      aimM: [0, 0.06, 0],
      widthM: 1,
      heightM: 1,
      output: { unit: 'luxAtDistance', value: 400000, distanceM: 1 },
    });
    const parts = { subject: { pieceId: 'tonic', meterPointM: [0, 0.08, 0] as [number, number, number] } };
    const of = set(
      { rpm: 1 },
      { ...parts, pieces: [glossSheet(), tonic()], fixtures: [side], camera: camera({ iso: 800 }) },
    );
    const finding = find(check(of, { sweep: true }), 'sweep');
    expect(finding?.grade).toBe('care');
    expect(finding?.value).toBeGreaterThan(0.005);
    expect(finding?.summary).toMatch(/at \d+ degrees\.$/);
    expect(finding?.where.outlineUv?.length).toBe(8);
    const dim = set({ rpm: 1 }, { ...parts, pieces: [glossSheet(), tonic()], camera: camera({ iso: 50 }) });
    expect(find(check(dim, { sweep: true }), 'sweep')?.grade).toBe('ok');
  });

  it('doubles blur with speed and with time, and wobble with run-out', () => {
    const positive = fc.double({ min: 0.1, max: 20, noNaN: true });
    fc.assert(
      fc.property(positive, fc.double({ min: 0.0001, max: 0.01, noNaN: true }), (rpm, runOutM) => {
        const at = (patch: Record<string, unknown>, shutterS = 1 / 100) =>
          check(set(patch, { camera: camera({ shutterS }) })).figures.turntable as Record<string, number>;
        const one = at({ rpm });
        expect(at({ rpm: 2 * rpm }).blurPx / one.blurPx).toBeCloseTo(2, 9);
        expect(at({ rpm }, 1 / 50).blurPx / one.blurPx).toBeCloseTo(2, 9);
        expect(at({ rpm, runOutM: 2 * runOutM }).wobblePx / at({ rpm, runOutM }).wobblePx).toBeCloseTo(2, 6);
      }),
      { seed: 4, numRuns: 6 },
    );
  });
});
