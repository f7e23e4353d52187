import { expect, test } from 'vitest';
import type { Finding } from '../../../src/analysis/contracts.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import { polygonAreaM2 } from '../../../src/views/drawing/hull.ts';
import { drawingModelFromScene } from '../../../src/views/drawing/model.ts';
import type { Projection } from '../../../src/views/drawing/projection.ts';
import type { SheetItem } from '../../../src/views/drawing/sheet.ts';
import { makeScene, makeSet, makeView } from './makeScene.ts';

const draw = (projection: Projection, scene = makeScene(), selectedId: string | null = null, finding?: Finding) =>
  drawingModelFromScene({
    scene,
    set: makeSet(scene),
    view: makeView(scene),
    projection,
    selectedId,
    activeFinding: finding ?? null,
  });

function itemOf(items: readonly SheetItem[], recordId: string): SheetItem {
  const item = items.find((candidate) => candidate.recordId === recordId);
  if (!item) throw new Error(`${recordId} is not drawn`);
  return item;
}

test('plan has x to the right and z down the sheet, elevations have height up', () => {
  const scene = makeScene({ fixturePositionM: [0.3, 1.3, -0.4] });
  expect(itemOf(draw('plan', scene).items, 'fixture:key').anchor).toEqual([0.3, -0.4]);
  expect(itemOf(draw('front', scene).items, 'fixture:key').anchor).toEqual([0.3, -1.3]);
  // Seen from camera right, what is behind the subject (z < 0) lies to the right.
  expect(itemOf(draw('side', scene).items, 'fixture:key').anchor).toEqual([0.4, -1.3]);
});

test('plan dimensions of the selected light are its 0.50 m along the floor and its bearing', () => {
  const { dimensions } = draw('plan', makeScene({ fixturePositionM: [0.3, 1.3, -0.4] }), 'fixture:key');
  const [floor, bearing] = dimensions;
  expect(floor).toMatchObject({ kind: 'linear', from: [0, 0], to: [0.3, -0.4], text: '0.50 m' });
  expect(floor.kind === 'linear' && floor.valueM).toBeCloseTo(0.5, 12);
  // atan2(0.3, -0.4) = 143.13 degrees from the camera's direction.
  expect(bearing.kind === 'arc' && bearing.valueDeg).toBeCloseTo(143.1301, 4);
});

test('elevation dimensions are height above the table and the offset that this sheet shows', () => {
  const scene = makeScene({ fixturePositionM: [0.3, 1.3, -0.4] });
  const front = draw('front', scene, 'fixture:key').dimensions;
  expect(front.map((d) => [d.measures, d.text])).toEqual([
    ['height', '1.30 m'],
    ['offset', '0.30 m'],
  ]);
  const side = draw('side', scene, 'fixture:key').dimensions;
  expect(side.map((d) => [d.measures, d.text])).toEqual([
    ['height', '1.30 m'],
    ['offset', '0.40 m'],
  ]);
});

test('a panel that looks straight down covers its true size on the plan', () => {
  const scene = makeScene({ fixturePositionM: [0, 1, 0], fixtureAimM: [0, 0, 0] });
  const item = itemOf(draw('plan', scene).items, 'fixture:key');
  const face = item.lines.find(({ weight }) => weight === 'face');
  // 0.6 x 0.3 m as recorded.
  expect(face?.closed).toBe(true);
  expect(polygonAreaM2(face?.points ?? [])).toBeCloseTo(0.18, 9);
});

test('a panel that looks along the floor shows its face on the plan as one stroke of its width', () => {
  const scene = makeScene({ fixturePositionM: [0, 0.5, -1], fixtureAimM: [0, 0.5, 0] });
  const face = itemOf(draw('plan', scene).items, 'fixture:key').lines.find(({ weight }) => weight === 'face');
  expect(face?.points).toHaveLength(2);
  const [[u0, v0], [u1, v1]] = face?.points ?? [];
  expect(Math.abs(u1 - u0)).toBeCloseTo(0.6, 12);
  expect([v0, v1]).toEqual([-1, -1]);
});

test('field lines of the camera are as wide at the plane of focus as the lens sees', () => {
  const { lines } = itemOf(draw('plan').items, 'camera');
  const tick = lines.find(({ closed, points }) => !closed && points.length === 2);
  // Focus 1 m ahead, half width 0.2 m per metre: 0.4 m across, at z = 1.2 - 1.
  const [[u0, v0], [u1, v1]] = tick?.points ?? [];
  expect(u1 - u0).toBeCloseTo(0.4, 12);
  expect(v0).toBeCloseTo(0.2, 12);
  expect(v1).toBeCloseTo(0.2, 12);
});

test('rays of the active finding are drawn from the lens on, with the points where they turn', () => {
  const finding: Finding = {
    id: 'reflection:key',
    check: 'reflections',
    grade: 'care',
    subject: 'fixture:key',
    value: 2,
    unit: 'stops',
    limit: 1,
    summary: 'The key shows in the base.',
    where: {
      raysM: [
        [
          [0, 0.3, 1.2],
          [0.1, 0, 0.2],
          [0.3, 1.3, -0.4],
        ],
      ],
    },
    remedies: [],
  };
  const { rays } = draw('plan', makeScene(), null, finding);
  expect(rays).toEqual([
    {
      points: [
        [0, 1.2],
        [0.1, 0.2],
        [0.3, -0.4],
      ],
      turns: [[0.1, 0.2]],
    },
  ]);
});

test('a light that is off is drawn unlit', () => {
  const scene = makeScene();
  const off = { ...scene, fixtures: scene.fixtures.map((fixture) => ({ ...fixture, on: false })) };
  expect(itemOf(draw('plan', off).items, 'fixture:key').lit).toBe(false);
  expect(itemOf(draw('plan', scene).items, 'fixture:key').lit).toBe(true);
});

test('a finding without rays is a ring at its point', () => {
  const finding: Finding = {
    id: 'exposure:subject',
    check: 'exposure',
    grade: 'ok',
    subject: 'fixture:key',
    value: 0,
    unit: 'stops',
    limit: 0.5,
    summary: 'As metered.',
    where: { pointM: [0.02, 0.1, -0.03] },
    remedies: [],
  };
  expect(draw('front', makeScene(), null, finding).rays).toEqual([{ points: [], turns: [[0.02, -0.1]] }]);
});

test('the family of angles is the hull of its corner rays beyond the mirror, lens left out', () => {
  const corner = (x: number): [Vec3, Vec3, Vec3] => [
    [0, 0.3, 1.2],
    [x, 0, 0.1],
    [3 * x, 1, -0.9],
  ];
  const finding: Finding = {
    id: 'familyOfAngles:base',
    check: 'familyOfAngles',
    grade: 'note',
    subject: 'fixture:key',
    value: -0.1,
    unit: 'm',
    limit: 0,
    summary: 'The key stands in what the base mirrors.',
    where: { raysM: [corner(-0.2), corner(0.2)] },
    remedies: [],
  };
  // A trapezium 0.4 and 1.2 m wide, 1 m deep: (0.4 + 1.2) / 2 = 0.8 m2.
  expect(polygonAreaM2(draw('plan', makeScene(), null, finding).region)).toBeCloseTo(0.8, 12);
  expect(draw('plan').region).toEqual([]);
});
