import { describe, expect, it } from 'vitest';
import { buildSet } from '../../src/scene/buildSet.ts';
import { convexHull, outlineSet, type SheetPoint } from '../../src/scene/outline.ts';
import { defaultDrink, defaultGlass, defaultIce, defaultPiece } from '../../src/scene/pieceDefaults.ts';
import { sceneOf } from './sceneTools.ts';

const area = (p: readonly SheetPoint[]): number =>
  p.reduce((sum, [x, y], i) => sum + x * p[(i + 1) % p.length][1] - y * p[(i + 1) % p.length][0], 0) / 2;
const spanOf = (points: readonly SheetPoint[], k: 0 | 1): number =>
  Math.max(...points.map((p) => p[k])) - Math.min(...points.map((p) => p[k]));

describe('drawn outlines', () => {
  const glass = defaultGlass('wine', 'glass');
  if (glass.kind !== 'glass') throw new Error('glass only');
  const set = buildSet(
    sceneOf([
      { ...glass, positionM: [0.2, 0, 0.1], drink: defaultDrink(), ice: { ...defaultIce(), count: 2 } },
      { ...defaultPiece('sweep', 'paper'), positionM: [0, 0, 0] },
      { ...defaultPiece('plinthBox', 'plinth'), positionM: [-0.3, 0, 0], headingDeg: 45 },
    ]),
  );

  it('show a wine glass in elevation as its section: one closed line as high and wide as the glass', () => {
    const [section] = outlineSet(set, 'front').filter((o) => o.recordId === 'glass');
    expect(section.closed).toBe(true);
    expect(spanOf(section.pointsM, 0)).toBeCloseTo(0.084, 4);
    expect(spanOf(section.pointsM, 1)).toBeCloseTo(0.215, 6);
    const xs = section.pointsM.map((p) => p[0]);
    expect((Math.min(...xs) + Math.max(...xs)) / 2).toBeCloseTo(0.2, 9);
    // The stem is drawn 8 mm wide: the section reaches 4 mm from the axis where its fillets end.
    const stem = section.pointsM.filter((p) => p[1] > 0.012 && p[1] < 0.102).map((p) => Math.abs(p[0] - 0.2));
    expect(Math.min(...stem)).toBeCloseTo(0.004, 6);
  });

  it('show each ice cube and the plinth as one convex outline', () => {
    const front = outlineSet(set, 'front');
    expect(front.filter((o) => o.role.startsWith('ice'))).toHaveLength(2);
    const plinth = outlineSet(set, 'plan').filter((o) => o.recordId === 'plinth');
    expect(plinth).toHaveLength(1);
    // A 140 mm square, its corners rounded by 1 mm: 140^2 - (4 - pi) 1^2 mm^2.
    expect(Math.abs(area(plinth[0].pointsM)) * 1e6).toBeCloseTo(140 ** 2 - (4 - Math.PI), 1);
  });

  it('show paper from the side as its profile line: 900 mm of floor, a quarter turn of 250 mm, 850 mm of rise', () => {
    const paper = outlineSet(set, 'side').filter((o) => o.recordId === 'paper');
    expect(paper.map((o) => o.closed)).toEqual([false, false, false]);
    const lengths = paper.map(({ pointsM }) =>
      pointsM.slice(1).reduce((sum, p, i) => sum + Math.hypot(p[0] - pointsM[i][0], p[1] - pointsM[i][1]), 0),
    );
    expect(lengths[0]).toBeCloseTo(0.9, 6);
    expect(lengths[1]).toBeCloseTo((Math.PI / 2) * 0.25, 3);
    expect(lengths[2]).toBeCloseTo(1.1 - 0.25 - 0.00005, 6);
    expect(outlineSet(set, 'front').filter((o) => o.recordId === 'paper')[2].closed).toBe(true);
  });

  it('show a glass in plan as a circle of its widest radius', () => {
    const [plan] = outlineSet(set, 'plan').filter((o) => o.recordId === 'glass');
    expect(plan.closed).toBe(true);
    expect(spanOf(plan.pointsM, 0)).toBeCloseTo(0.084, 4);
    expect(spanOf(plan.pointsM, 1)).toBeCloseTo(0.084, 4);
  });
});

describe('a convex hull', () => {
  it('keeps the 4 corners of a square with points inside and along its sides', () => {
    const hull = convexHull([
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
      [0.5, 0.5],
      [0.5, 0],
      [1, 0.3],
    ]);
    expect(hull).toHaveLength(4);
    expect(area(hull)).toBeCloseTo(1, 12);
  });
  it('is a line of two points when all lie on one', () => {
    expect(
      convexHull([
        [0, 0],
        [1, 1],
        [0.5, 0.5],
      ]),
    ).toEqual([
      [0, 0],
      [1, 1],
    ]);
  });
});
