import { describe, expect, it } from 'vitest';
import type { DocumentChange } from '../../../src/document/changes.ts';
import { emptySetup } from '../../../src/document/defaults.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import {
  alignChanges,
  centreLineChanges,
  distanceChanges,
  spreadChanges,
} from '../../../src/views/arrange/alignRecords.ts';
import { formatTape, measureBetween } from '../../../src/views/arrange/measure.ts';
import { makeScene } from '../drawing/makeScene.ts';

const scene = { ...makeScene(), pieces: emptySetup().pieces };
const arranged = { scene, set: buildSet(scene), cameraId: 'frame:wide' };
const [hero, table] = scene.pieces;
const key = scene.fixtures[0];

/** Where the changes put a record; where it stands when they say nothing of it. */
function placeOf(changes: readonly DocumentChange[], id: string): readonly number[] {
  const change = changes.find((entry) => entry.op === 'update' && entry.id === id);
  if (change?.op === 'update' && Array.isArray(change.patch.positionM)) return change.patch.positionM;
  const record = [...scene.pieces, ...scene.fixtures, ...scene.grip].find((entry) => entry.id === id);
  if (!record) throw new Error(`no ${id}`);
  return record.positionM;
}

describe('lining up', () => {
  it('puts the left edge of one piece at that of the last, which stays', () => {
    const changes = alignChanges(arranged, [hero.id, table.id], 0, 'low');
    const { boundsByRecord } = arranged.set;
    const left = (id: string) => boundsByRecord.get(id)?.minM[0] ?? Number.NaN;
    const moved = placeOf(changes, hero.id)[0] - hero.positionM[0];
    expect(left(hero.id) + moved).toBeCloseTo(left(table.id), 4);
    expect(placeOf(changes, table.id)).toEqual(table.positionM);
  });

  it('takes a light by the point that it is placed by, and leaves its aim', () => {
    const [change] = alignChanges(arranged, [key.id, hero.id], 2, 'middle');
    expect(change).toMatchObject({ op: 'update', collection: 'fixtures', id: key.id });
    expect(change.op === 'update' && Object.keys(change.patch)).toEqual(['positionM']);
  });

  it('spreads 3 lights at equal steps between the outermost', () => {
    const lights = [0, 0.2, 1].map((x, i) => ({
      ...key,
      id: `fixture:${i}`,
      positionM: [x, 1, 0] as [number, number, number],
    }));
    const three = { ...scene, fixtures: lights };
    const changes = spreadChanges(
      { ...arranged, scene: three },
      lights.map(({ id }) => id),
      0,
    );
    expect(changes).toHaveLength(1);
    expect(placeOf(changes, 'fixture:1')[0]).toBeCloseTo(0.5, 6);
  });
});

describe('placing from the subject', () => {
  it('puts a light on the centre line: with the lens straight before the subject that is its own x', () => {
    const changes = centreLineChanges(arranged, [key.id]);
    const { meterPointM } = scene.subject;
    // The lens of this scene stands at x = 0 before a subject at x = 0.
    expect([scene.camera.positionM[0], meterPointM[0]]).toEqual([0, 0]);
    expect(placeOf(changes, key.id)[0]).toBeCloseTo(0, 6);
    expect(placeOf(changes, key.id).slice(1)).toEqual(key.positionM.slice(1));
  });

  it('puts a light 0.8 m from the meter point, in its direction', () => {
    const place = placeOf(distanceChanges(arranged, [key.id], 0.8), key.id);
    const { meterPointM } = scene.subject;
    const from = [0, 1, 2].map((k) => place[k] - meterPointM[k]);
    const before = [0, 1, 2].map((k) => key.positionM[k] - meterPointM[k]);
    expect(Math.hypot(...from)).toBeCloseTo(0.8, 3);
    expect(from[0] / from[1]).toBeCloseTo(before[0] / before[1], 2);
  });
});

describe('the tape', () => {
  it('reads 5 m straight, 3 m along the floor and 4 m up for the 3-4-5 triangle', () => {
    expect(measureBetween([0, 0, 0], [3, 4, 0])).toEqual({ distanceM: 5, levelM: 3, riseM: 4 });
  });
  it('says centimetres under a metre', () => {
    expect([formatTape(0.4204), formatTape(1.2036)]).toEqual(['42.0 cm', '1.204 m']);
  });
});
