import { expect, test } from 'vitest';
import { fromAim, IDENTITY } from '../../../src/core/rigid.ts';
import type { MeshShape, Shape } from '../../../src/core/shape.ts';
import { convexHull, polygonAreaM2 } from '../../../src/views/drawing/hull.ts';
import { mergeLines } from '../../../src/views/drawing/mergeLines.ts';
import { projectToSheet } from '../../../src/views/drawing/projection.ts';
import { hullPoints, surfaceOutlines } from '../../../src/views/drawing/surfaceOutline.ts';

const standing = (shape: Shape) => ({ shape, worldFromLocal: IDENTITY });
const cone: Shape = { type: 'revolvedLine', r0M: 0.03, y0M: 0, r1M: 0.04, y1M: 0.14 };

test('a turned wall is two circles on the plan', () => {
  const rings = surfaceOutlines(standing(cone), 'plan');
  expect(rings.every(({ closed }) => closed)).toBe(true);
  // A polygon of 96 sides covers n/2 sin(2 pi / n) r^2 = 3.13935 r^2.
  expect(rings.map(({ points }) => polygonAreaM2(points)).sort()).toEqual([
    expect.closeTo(3.13935 * 0.03 ** 2, 7),
    expect.closeTo(3.13935 * 0.04 ** 2, 7),
  ]);
});

test('a turned wall is its profile on both sides in elevation', () => {
  const sides = surfaceOutlines(standing(cone), 'front');
  const corners = sides.flatMap(({ points }) => points).map(([u, v]) => [Math.abs(u), v]);
  expect(sides).toHaveLength(2);
  expect(corners).toHaveLength(4);
  for (const [u, v] of corners) expect(u).toBeCloseTo(v === 0 ? 0.03 : 0.04, 12);
});

test('a disc seen edge-on is one line of its diameter', () => {
  const [line] = surfaceOutlines(standing({ type: 'revolvedLine', r0M: 0.05, y0M: 0.1, r1M: 0, y1M: 0.1 }), 'side');
  expect(line.points).toHaveLength(2);
  expect(Math.hypot(line.points[1][0] - line.points[0][0], line.points[1][1] - line.points[0][1])).toBeCloseTo(0.1, 12);
});

test('a half profile that reaches the axis runs on as one line over it', () => {
  const dome: Shape = {
    type: 'revolvedArc',
    centreRM: 0,
    centreYM: 0,
    radiusM: 0.05,
    angle0Rad: 0,
    angle1Rad: Math.PI / 2,
  };
  const outlines = surfaceOutlines(standing(dome), 'front');
  expect(outlines).toHaveLength(1);
  expect(Math.min(...outlines[0].points.map(([, v]) => v))).toBeCloseTo(-0.05, 12);
});

test('a disc tilted by 60 degrees is an ellipse half as high as wide', () => {
  // Looking 60 degrees down, the frame's own up (the axis of the disc) leans 60 degrees from the vertical.
  const t = (60 * Math.PI) / 180;
  const leaned = fromAim([0, 0, 0], [0, -Math.sin(t), Math.cos(t)]);
  const disc: Shape = { type: 'revolvedLine', r0M: 0.1, y0M: 0, r1M: 0, y1M: 0 };
  const [outline] = surfaceOutlines({ shape: disc, worldFromLocal: leaned }, 'plan');
  const us = outline.points.map(([u]) => u);
  const vs = outline.points.map(([, v]) => v);
  expect(Math.max(...us) - Math.min(...us)).toBeCloseTo(0.2, 4);
  // cos 60 = 0.5.
  expect(Math.max(...vs) - Math.min(...vs)).toBeCloseTo(0.1, 4);
});

test('a cove is drawn by its edges: two arcs and two straight lines', () => {
  const cove: Shape = {
    type: 'revolvedLine',
    r0M: 0.2,
    y0M: 0,
    r1M: 0.2,
    y1M: 1,
    azimuth: { startRad: 0, endRad: Math.PI / 2 },
  };
  const edges = surfaceOutlines(standing(cove), 'side');
  // From the side the quarter turn of 0.2 m radius, 1 m high, is a frame of 0.2 x 1 m.
  expect(edges.every(({ closed }) => !closed)).toBe(true);
  expect(edges).toHaveLength(4);
  expect(polygonAreaM2(convexHull(edges.flatMap(({ points }) => points)))).toBeCloseTo(0.2, 9);
});

const box = (): MeshShape => ({
  type: 'mesh',
  positionsM: new Float32Array([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0, 0, 0, 1, 1, 0, 1, 1, 1, 1, 0, 1, 1]),
  indices: new Uint32Array([
    0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 2, 3, 7, 2, 7, 6, 1, 2, 6, 1, 6, 5, 0, 4, 7, 0, 7, 3,
  ]),
});

test('a cube of twelve triangles shows one square from above: diagonals inside faces are not drawn', () => {
  const merged = mergeLines(surfaceOutlines(standing(box()), 'plan'));
  expect(merged).toHaveLength(1);
  expect(merged[0].closed).toBe(true);
  expect(polygonAreaM2(convexHull(merged[0].points))).toBeCloseTo(1, 9);
});

test('the hull of a quad on any sheet is the hull of its corners', () => {
  const quad: Shape = { type: 'quad', originM: [0, 0, 0], edgeUM: [0.4, 0, 0], edgeVM: [0, 0, 0.2] };
  const points = hullPoints(standing(quad));
  expect(polygonAreaM2(convexHull(points.map((p) => projectToSheet('plan', p))))).toBeCloseTo(0.08, 12);
  expect(convexHull(points.map((p) => projectToSheet('front', p)))).toHaveLength(2);
});
