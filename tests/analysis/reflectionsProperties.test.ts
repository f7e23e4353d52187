import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import { add, scale, sub, type Vec3 } from '../../src/core/vec3.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { camera, fixture, panel, scene } from './helpers/scenes.ts';

const WIDE = camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 });
const check = (of: FrameScene): CheckResult => checkFrame(of, { checks: ['reflections'], remedies: false });
const find = (of: FrameScene, id: string): Finding | undefined => check(of).findings.find((f) => f.id === id);
const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('reflections, for random sets', () => {
  it('see a bulb at one place of the sheet wherever it stands on its own mirror ray (law of reflection)', () => {
    fc.assert(
      fc.property(within(-0.25, 0.25), within(0.08, 0.3), within(0.25, 0.9), (x, z, along) => {
        const onSheet: Vec3 = [x, 0.005, z];
        const [dx, dy, dz] = sub(onSheet, WIDE.positionM);
        const bulb = fixture({
          kind: 'bulb',
          id: 'bulb',
          name: 'Bulb',
          positionM: add(onSheet, scale([dx, -dy, dz], along)),
          aimM: [0, 0, 0],
          output: { unit: 'lumens', value: 900 },
        });
        const point = find(scene({ camera: WIDE, fixtures: [bulb] }), 'reflections:bulb:in:sheet')?.where.pointM;
        // The hero may stand in the way of one; then there is nothing to see.
        if (!point) return Math.abs(x) < 0.06;
        expect(Math.hypot(point[0] - x, point[2] - z)).toBeLessThan(0.012);
        return true;
      }),
      { seed: 64, numRuns: 8 },
    );
  });

  it('keep stops, place and size when light and shutter are scaled against one another (light is linear)', () => {
    const at = (k: number): Finding | undefined =>
      find(
        scene({
          fixtures: [panel({ output: { unit: 'luxAtDistance', value: 6000 * k, distanceM: 1 } })],
          camera: { ...WIDE, shutterS: WIDE.shutterS / k },
        }),
        'reflections:back-panel:in:sheet',
      );
    const base = at(1);
    expect(base).toBeDefined();
    fc.assert(
      fc.property(within(0.2, 30), (k) => {
        const after = at(k);
        expect(after?.value).toBeCloseTo(base?.value ?? 0, 6);
        expect(after?.grade).toBe(base?.grade);
      }),
      { seed: 65, numRuns: 4 },
    );
  });
});
