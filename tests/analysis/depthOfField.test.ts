import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, matteSheet, panel, piece, scene, tonic } from './helpers/scenes.ts';

const set = (patch: Record<string, unknown> = {}, parts: Partial<FrameScene> = {}): FrameScene =>
  scene({
    pieces: [matteSheet(), block()],
    fixtures: [panel()],
    camera: camera({ positionM: [0, 0.07, 1.2], aimM: [0, 0.07, 0], ...patch }),
    ...parts,
  });
const check = (of: FrameScene, remedies = false, limits = {}): CheckResult =>
  checkFrame(of, { checks: ['depthOfField'], remedies, limits });
const subject = ({ findings }: CheckResult): Finding | undefined =>
  findings.find(({ id }) => id === 'depthOfField:subject');
interface Figures {
  readonly records: readonly { id: string; focus: string; nearM: number; farM: number }[];
}
const records = (result: CheckResult) => (result.figures.depthOfField as Figures).records;

describe('depth of field', () => {
  it('is ok when all of the subject is sharp', () => {
    const finding = subject(check(set({ apertureFNumber: 16 })));
    expect(finding?.grade).toBe('ok');
    expect(finding?.value).toBeLessThan(1);
    expect(finding?.summary).toMatch(/^Sharp from [\d.]+ m to [\d.]+ m from the lens: all of Stand-in is sharp\.$/);
  });

  it('fires when the focus is off, and the focus that it offers holds the subject', () => {
    const before = set({ focusDistanceM: 0.7 });
    const finding = subject(check(before, true));
    expect(finding?.grade).toBe('stop');
    expect(finding?.summary).toContain('its back is');
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toMatch(/^Focus at 1\.(19|20)\d m/);
    if (remedy) expect(subject(check(applyChanges(before, remedy.changes)))?.grade).toBe('ok');
  });

  it('offers a smaller stop where focus alone does not do, with what it costs', () => {
    const before = set({ apertureFNumber: 0.95, focalLengthMm: 135 });
    const finding = subject(check(before, true));
    expect(finding?.grade).toMatch(/care|stop/);
    const remedy = finding?.remedies.at(-1);
    expect(remedy?.label).toMatch(/top down to f\/[\d.]+: [\d.]+ circles soft, [\d.]+ stops less light$/);
    if (remedy) expect(subject(check(applyChanges(before, remedy.changes)))?.grade).not.toMatch(/care|stop/);
  });

  it('says which pieces fall outside, and which do so in part', () => {
    const wall = piece({
      kind: 'wall',
      id: 'wall',
      name: 'Wall',
      positionM: [0, 0, -1],
      widthM: 2,
      heightM: 1,
      finish: { type: 'matte', reflectanceRgb: [0.3, 0.3, 0.3] },
    });
    const result = check(set({ apertureFNumber: 8 }, { pieces: [matteSheet(), wall, block()] }));
    const focus = Object.fromEntries(records(result).map(({ id, focus: state }) => [id, state]));
    expect(focus).toEqual({ hero: 'sharp', wall: 'soft', sheet: 'partly sharp' });
  });

  it('takes exact depths of turned things: a highball 66 mm wide spans 66 mm', () => {
    const [glass] = records(check(set({}, { pieces: [tonic()] })));
    expect(glass.farM - glass.nearM).toBeCloseTo(0.066, 4);
  });

  it('notes diffraction past the circle of confusion, and not before', () => {
    const ids = (fNumber: number): string[] => check(set({ apertureFNumber: fNumber })).findings.map(({ id }) => id);
    expect(ids(11)).not.toContain('depthOfField:diffraction');
    expect(ids(32)).toContain('depthOfField:diffraction');
  });

  it('takes the circle that the frame states', () => {
    const value = (divisor: number): number =>
      subject(check(set({ apertureFNumber: 4 }), false, { circleOfConfusionDivisor: divisor }))?.value ?? 0;
    expect(value(3000) / value(1500)).toBeCloseTo(2, 9);
  });

  it('has nothing to say of a subject out of the frame or a lens focused inside itself', () => {
    expect(check(set({ aimM: [0, 5, 9] })).findings.filter(({ id }) => id === 'depthOfField:subject')).toEqual([]);
    expect(subject(check(set({ focusDistanceM: 0.05 })))).toBeUndefined();
  });

  it('never sharpens by opening up, and offers only what betters the worst part', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.4, max: 3, noNaN: true }),
        fc.double({ min: 1.4, max: 22, noNaN: true }),
        fc.double({ min: 0.4, max: 3, noNaN: true }),
        (distanceM, fNumber, focusDistanceM) => {
          const at = (n: number) => set({ positionM: [0, 0.07, distanceM], apertureFNumber: n, focusDistanceM });
          const wide = subject(check(at(fNumber), true));
          const small = subject(check(at(fNumber * 1.5)));
          fc.pre(wide !== undefined && small !== undefined);
          expect(small?.value).toBeLessThanOrEqual((wide?.value ?? 0) + 1e-9);
          for (const remedy of wide?.remedies ?? []) {
            const after = subject(check(applyChanges(at(fNumber), remedy.changes)));
            expect(after?.value).toBeLessThan(wide?.value ?? 0);
          }
        },
      ),
      { seed: 8, numRuns: 25 },
    );
  });
});
