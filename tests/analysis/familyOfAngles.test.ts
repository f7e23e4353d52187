import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  applyChanges,
  checkFrame,
  createCheckInput,
  distanceToClearM,
  familiesOfAngles,
  familyClearance,
  polygonInFamily,
} from '../../src/analysis/index.ts';
import { addScaled, normalize, type Vec3 } from '../../src/core/vec3.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, matteSheet, panel, scene } from './helpers/scenes.ts';

const WIDE = camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 });
const withPanel = (patch: Record<string, unknown> = {}): FrameScene =>
  scene({ camera: WIDE, fixtures: [panel(patch)] });
const find = (of: FrameScene, remedies = false) =>
  checkFrame(of, { checks: ['familyOfAngles'], remedies }).findings.find(({ id }) => id === 'familyOfAngles:sheet');
const FAMILY = familiesOfAngles(createCheckInput(withPanel()))[0];
const SQUARE = (centre: Vec3, half: number): Vec3[] => [
  [centre[0] - half, centre[1] - half, centre[2]],
  [centre[0] + half, centre[1] - half, centre[2]],
  [centre[0] + half, centre[1] + half, centre[2]],
  [centre[0] - half, centre[1] + half, centre[2]],
];
const coordinate = fc.double({ min: -2, max: 2, noNaN: true });

describe('family of angles', () => {
  it('says how deep a mirrored panel stands inside it', () => {
    const finding = find(withPanel());
    expect(finding?.grade).toBe('note');
    expect(finding?.subject).toBe('back-panel');
    expect(finding?.value).toBeLessThan(-0.05);
    expect(finding?.summary).toMatch(/^Back panel stands [\d.]+ m inside the family of angles of the gloss sheet/);
    expect(finding?.where.raysM?.length).toBeGreaterThan(2);
  });

  it('is ok about a panel well outside it, and names the room that is left', () => {
    const finding = find(withPanel({ positionM: [0, 2.4, -0.4] }));
    expect(finding?.grade).toBe('ok');
    expect(finding?.value).toBeGreaterThan(0.3);
    expect(finding?.remedies).toEqual([]);
  });

  it('has nothing to say over a matte sheet', () => {
    const of = scene({ camera: WIDE, pieces: [matteSheet(), block()] });
    expect(checkFrame(of, { checks: ['familyOfAngles'] }).findings).toEqual([]);
  });

  it('offers a move that leaves the family, and takes no more than it must', () => {
    const before = withPanel();
    const finding = find(before, true);
    const remedy = finding?.remedies[0];
    expect(remedy).toBeDefined();
    if (!remedy) return;
    const after = find(applyChanges(before, remedy.changes));
    expect(after?.value).toBeGreaterThan(0);
    expect(after?.value).toBeLessThan(0.25);
    const reflections = checkFrame(applyChanges(before, remedy.changes), { checks: ['reflections'], remedies: false });
    expect(reflections.findings.map(({ id }) => id)).not.toContain('reflections:back-panel:in:sheet');
  });

  it('counts a square as outside just when nothing of it is left inside (any place, any size)', () => {
    fc.assert(
      fc.property(coordinate, coordinate, coordinate, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (x, y, z, h) => {
        const square = SQUARE([x, y, z], h);
        const { distanceM } = familyClearance(FAMILY, square);
        fc.pre(Math.abs(distanceM) > 1e-6);
        expect(distanceM > 0).toBe(polygonInFamily(FAMILY, square).length < 3);
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  it('clears with the move that it gives, and not with a millimetre less', () => {
    fc.assert(
      fc.property(coordinate, coordinate, coordinate, coordinate, coordinate, (x, y, dx, dy, dz) => {
        const square = SQUARE([x / 2, 0.4 + y / 4, -0.7], 0.15);
        const direction = normalize([dx, Math.abs(dy) + 0.1, dz]);
        const step = distanceToClearM(FAMILY, square, direction);
        fc.pre(step !== null && step > 0.002 && step < 5);
        const at = (distanceM: number): boolean =>
          polygonInFamily(
            FAMILY,
            square.map((corner) => addScaled(corner, direction, distanceM)),
          ).length > 2;
        expect(at((step ?? 0) + 1e-6)).toBe(false);
        expect(at((step ?? 0) - 1e-3)).toBe(true);
      }),
      { seed: 12, numRuns: 200 },
    );
  });
});
