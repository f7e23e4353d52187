import { expect, test } from 'vitest';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { pieceSchema } from '../../../src/scene/records.ts';
import { drawingModelFromScene } from '../../../src/views/drawing/model.ts';
import type { Projection } from '../../../src/views/drawing/projection.ts';
import { makeScene, makeView } from './makeScene.ts';

const highball = pieceSchema.parse({
  kind: 'glass',
  id: 'piece:hero',
  name: 'Highball',
  positionM: [0.1, 0, -0.2],
  headingDeg: 0,
  profile: {
    shape: 'highball',
    heightM: 0.15,
    rimDiameterM: 0.07,
    baseDiameterM: 0.06,
    wallM: 0.002,
    baseThicknessM: 0.012,
    footRadiusM: 0.002,
  },
  glassIndex: 1.52,
  glassAbsorptionPerM: [2, 0.8, 1.6],
  drink: { name: 'tonic', index: 1.34, absorptionPerM: [0, 0, 0], fillFraction: 0.8, meniscusM: 0 },
});

function drawn(projection: Projection) {
  const scene = { ...makeScene(), pieces: [highball] };
  const { items } = drawingModelFromScene({
    scene,
    set: buildSet(scene),
    view: makeView(scene),
    projection,
    selectedId: null,
    activeFinding: null,
  });
  const item = items.find(({ recordId }) => recordId === 'piece:hero');
  if (!item) throw new Error('the glass is not drawn');
  return item;
}

const span = (values: readonly number[]): readonly [number, number] => [Math.min(...values), Math.max(...values)];

test('a highball 70 mm wide and 150 mm high is drawn so in elevation, standing on the table', () => {
  const outline = drawn('front').lines.filter(({ weight }) => weight === 'medium');
  const points = outline.flatMap((line) => line.points);
  const [u0, u1] = span(points.map(([u]) => u));
  const [v0, v1] = span(points.map(([, v]) => v));
  // Half a millimetre for the clearance under the foot and the rounding of the rim.
  expect(u1 - u0).toBeCloseTo(0.07, 3);
  expect(v0).toBeCloseTo(-0.15, 3);
  expect(Math.abs(v1)).toBeLessThan(0.0005);
  expect((u0 + u1) / 2).toBeCloseTo(0.1, 9);
});

test('the drink is drawn as a line across, 0.8 of the way up the inside', () => {
  const levels = drawn('front')
    .lines.filter(({ weight }) => weight === 'hair')
    .filter(({ points }) => points.length === 2 && Math.abs(points[0][1] - points[1][1]) < 1e-9)
    .map(({ points }) => -points[0][1]);
  // 12 mm of base and 0.8 of the 138 mm over it.
  expect(levels.some((level) => Math.abs(level - (0.012 + 0.8 * 0.138)) < 0.001)).toBe(true);
});

test('the plan has the rim at 70 and 66 mm and the foot at 60 mm, dashed, all round (0.1, -0.2)', () => {
  const rings = drawn('plan').lines.map(({ points, dash }) => {
    const [u0, u1] = span(points.map(([u]) => u));
    const [v0, v1] = span(points.map(([, v]) => v));
    return { centre: [(u0 + u1) / 2, (v0 + v1) / 2], diameterMm: Math.round((u1 - u0) * 1000), dash };
  });
  expect(rings.map(({ diameterMm, dash }) => [diameterMm, dash])).toEqual([
    [70, undefined],
    [66, undefined],
    [60, 'dashed'],
  ]);
  for (const { centre } of rings) {
    expect(centre[0]).toBeCloseTo(0.1, 9);
    expect(centre[1]).toBeCloseTo(-0.2, 9);
  }
});
