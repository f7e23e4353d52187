import { describe, expect, it } from 'vitest';
import {
  createCheckInput,
  type FamilyOfAngles,
  familiesOfAngles,
  familyMesh,
  familyOnDrawing,
  mirrorPoint,
  pointInFamily,
} from '../../../src/analysis/index.ts';
import { isPointInFrame } from '../../../src/analysis/places/inFrame.ts';
import { createRandom } from '../../../src/core/rng.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { camera, glossSheet, scene } from '../../analysis/helpers/scenes.ts';

/* Law of reflection in a plane: Hunter, Biver and Fuqua, Light: Science and Magic, ch. 3 (from memory); figures computed. */

/** Camera .5 m up and 1.5 m off, looking at the middle of a gloss table at y = 0. */
const TABLE: FrameScene = scene({
  pieces: [glossSheet({ positionM: [0, -0.005, 0] })],
  fixtures: [],
  camera: camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0, 0], focalLengthMm: 50, focusDistanceM: 1.58 }),
});

function largest(of: FrameScene): { family: FamilyOfAngles; view: ReturnType<typeof createCheckInput>['view'] } {
  const input = createCheckInput(of);
  const [family] = familiesOfAngles(input);
  return { family, view: input.view };
}

describe('the family of angles of a gloss table', () => {
  it('has its tip at the mirror image of the lens, (x, -y, z)', () => {
    const { family } = largest(TABLE);
    expect(family.apexM[0]).toBeCloseTo(0, 9);
    expect(family.apexM[1]).toBeCloseTo(-0.5, 9);
    expect(family.apexM[2]).toBeCloseTo(1.5, 9);
  });

  it.each([
    [0.2, 0],
    [0.3, -0.1875],
    [1.2, -0.882353],
  ])('holds a point %f m up at .6 m beyond just when the table shows it at %f, inside the frame', (heightM, hitM) => {
    // y = yc + (yp - yc) hc / (hc + zp): camera yc -1.5, hc .5; point yp .6. Here the depth axis is -z.
    const { family, view } = largest(TABLE);
    const pointM: Vec3 = [0, heightM, -0.6];
    const onTable: Vec3 = [0, 0, -hitM];
    expect(mirrorPoint(family.mirror, view.originM, pointM)?.[2]).toBeCloseTo(-hitM, 6);
    expect(pointInFamily(family, pointM)).toBe(isPointInFrame(view, onTable));
  });

  it('agrees with the mirror formula for 4000 random points', () => {
    const random = createRandom(77);
    const { family, view } = largest(TABLE);
    let inside = 0;
    for (let i = 0; i < 4000; i++) {
      const pointM: Vec3 = [(random() - 0.5) * 4, random() * 2 - 0.2, (random() - 0.7) * 4];
      const onTable = mirrorPoint({ pointM: [0, 0, 0], normal: [0, 1, 0] }, view.originM, pointM);
      const onSheet = onTable !== null && Math.abs(onTable[0]) <= 1.2 && Math.abs(onTable[2]) <= 1.2;
      const expected = pointM[1] > 0 && onSheet && onTable !== null && isPointInFrame(view, onTable);
      expect(pointInFamily(family, pointM), pointM.join(', ')).toBe(expected);
      if (expected) inside++;
    }
    expect(inside).toBeGreaterThan(200);
  });

  it('ends at the edge of a small sheet: the foot of the pyramid is the sheet itself', () => {
    const { family } = largest({
      ...TABLE,
      pieces: [glossSheet({ positionM: [0.05, -0.005, 0.02], widthM: 0.2, depthM: 0.1 })],
    });
    expect(family.visibleM).toHaveLength(4);
    const xs = family.visibleM.map((p) => p[0]);
    const zs = family.visibleM.map((p) => p[2]);
    expect(Math.min(...xs)).toBeCloseTo(-0.05, 6);
    expect(Math.max(...xs)).toBeCloseTo(0.15, 6);
    expect(Math.max(...zs) - Math.min(...zs)).toBeCloseTo(0.1, 6);
  });

  it('is drawn on the elevation from the sheet outward, its sides on the lines from the mirrored lens', () => {
    // In the plane of the axis a side passes the table at z and rises as hc / (zc - z): similar triangles.
    const { family } = largest(TABLE);
    const side = familyOnDrawing(family, 'side', 2);
    const foot = side.filter(([, y]) => Math.abs(y) < 1e-6).map(([z]) => z);
    const farthest = Math.min(...foot);
    const top = side.find(([z, y]) => y > 0.1 && Math.abs(y / (farthest - z) - 0.5 / (1.5 - farthest)) < 1e-6);
    expect(top).toBeDefined();
    expect(familyOnDrawing(family, 'plan', 2).length).toBeGreaterThanOrEqual(4);
  });

  it('gives a mesh whose corners all lie in the family', () => {
    const { family } = largest(TABLE);
    const { positionsM, indices } = familyMesh(family, 1);
    expect(Math.max(...indices)).toBe(positionsM.length / 3 - 1);
    const middle = family.visibleM.reduce((sum, p) => [sum[0] + p[0] / 4, sum[1] + p[1] / 4, sum[2] + p[2] / 4], [
      0, 0, 0,
    ] as Vec3);
    for (let i = 0; i < positionsM.length; i += 3) {
      // A hair toward the middle, for the corners lie on the planes themselves.
      const at = [0, 1, 2].map((k) => positionsM[i + k] * 0.9999 + (middle[k] + (k === 1 ? 0.5 : 0)) * 0.0001);
      expect(pointInFamily(family, [at[0], at[1], at[2]])).toBe(true);
    }
  });
});
