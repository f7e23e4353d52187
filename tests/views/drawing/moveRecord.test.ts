import { expect, test } from 'vitest';
import { type Hold, holdRecord, moveHeld, snapGuides } from '../../../src/views/drawing/moveRecord.ts';
import { makeScene } from './makeScene.ts';

const FREE = { projection: 'plan', constrain: false, snap: null } as const;
const held = (recordId: string, part: Hold['part'] = 'body'): Hold => {
  const hold = holdRecord(makeScene(), recordId, part);
  if (!hold) throw new Error(`${recordId} cannot be held`);
  return hold;
};

test('a light dragged 0.1 m right and 0.2 m down the plan keeps its height and its aim', () => {
  const { changes } = moveHeld(held('fixture:key'), [0.1, 0.2], 'frame:wide', FREE);
  expect(changes).toEqual([
    { op: 'update', collection: 'fixtures', id: 'fixture:key', patch: { positionM: [0.4, 1.3, -0.2] } },
  ]);
});

test('dragged up an elevation, a light rises and keeps its place along the line of sight', () => {
  const front = moveHeld(held('fixture:key'), [0, -0.25], 'frame:wide', { ...FREE, projection: 'front' });
  expect(front.pointM).toEqual([0.3, 1.55, -0.4]);
  const side = moveHeld(held('fixture:key'), [0.1, 0], 'frame:wide', { ...FREE, projection: 'side' });
  expect(side.pointM).toEqual([0.3, 1.3, -0.5]);
});

test('the aim point moves alone', () => {
  const { changes } = moveHeld(held('fixture:key', 'aim'), [0.05, 0], 'frame:wide', FREE);
  expect(changes).toEqual([
    { op: 'update', collection: 'fixtures', id: 'fixture:key', patch: { aimM: [0.05, 0.1, 0] } },
  ]);
});

test('a flag takes its aim along, so that it keeps its attitude', () => {
  const { changes } = moveHeld(held('grip:flag'), [0, -0.1], 'frame:wide', FREE);
  expect(changes).toEqual([
    {
      op: 'update',
      collection: 'grip',
      id: 'grip:flag',
      patch: { positionM: [-0.3, 0.2, 0], aimM: [0, 0.2, 0] },
    },
  ]);
});

test('the camera is changed under the id of its frame', () => {
  const { changes } = moveHeld(held('camera'), [0, 0.1], 'frame:wide', FREE);
  expect(changes[0]).toMatchObject({ collection: 'camera', id: 'frame:wide', patch: { positionM: [0, 0.3, 1.3] } });
});

test('constrained, the smaller movement is dropped', () => {
  expect(moveHeld(held('fixture:key'), [0.1, -0.3], 'f', { ...FREE, constrain: true }).pointM).toEqual([
    0.3, 1.3, -0.7,
  ]);
});

test('a light dropped 8 mm off the centre line lands on it within 10 mm and stays put outside', () => {
  const scene = makeScene();
  const guides = snapGuides(scene, held('fixture:key'), 'plan');
  const move = (withinM: number) =>
    moveHeld(held('fixture:key'), [-0.292, 0.1], 'f', { ...FREE, snap: { guides, withinM } });
  expect(move(0.01).pointM[0]).toBe(0);
  expect(move(0.01).snapped).toEqual([{ axis: 'u', atM: 0 }]);
  expect(move(0.005).pointM[0]).toBe(0.008);
  expect(move(0.005).snapped).toEqual([]);
});

test('dragged back to where it was taken, a light is set to where it stood', () => {
  expect(moveHeld(held('fixture:key'), [0, 0], 'f', FREE).changes).toMatchObject([
    { patch: { positionM: [0.3, 1.3, -0.4] } },
  ]);
});

test('nothing is held where nothing is', () => {
  expect(holdRecord(makeScene(), 'fixture:none', 'body')).toBeNull();
});

test('a light comes to rest at 0.8 m from the subject when it is dragged to within 2 cm of that, and not from farther', () => {
  const snap = (withinM: number) => ({ ...FREE, snap: { guides: [], withinM, centre: [0, 0] as const } });
  // From (0.3, -0.4), 0.5 m from the subject, straight out to 0.785 m.
  const move = [0.171, -0.228] as const;
  const away = ({ pointM }: { pointM: readonly number[] }) => Math.hypot(pointM[0], pointM[2]);
  expect(away(moveHeld(held('fixture:key'), move, 'f', snap(0.02)))).toBeCloseTo(0.8, 3);
  expect(away(moveHeld(held('fixture:key'), move, 'f', snap(0.01)))).toBeCloseTo(0.785, 3);
});
