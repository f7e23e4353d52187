import { describe, expect, it } from 'vitest';
import { translation } from '../../../src/core/rigid.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import { boundsOfShape } from '../../../src/scene/bounds.ts';
import { createDetailMerger, mergeSurfaces } from '../../../src/views/stage/mergeDetail.ts';

const drop = (i: number, role = `drop`): OpticalSurface => ({
  recordId: 'piece:glass',
  role,
  shape: {
    type: 'revolvedArc',
    centreRM: 0,
    centreYM: 0,
    radiusM: 0.001,
    angle0Rad: -Math.PI / 2,
    angle1Rad: Math.PI / 2,
  },
  worldFromLocal: translation([i * 0.01, 0.1, 0]),
  finish: { type: 'clear', roughness: 0 },
  backVolume: 'piece:glass:drops',
});
const drops = Array.from({ length: 600 }, (_, i) => drop(i));
const wall: OpticalSurface = { ...drop(0, 'outer wall'), backVolume: 'piece:glass:glass' };

describe('fine detail on the stage', () => {
  it('is one mesh for 600 drops; what stands alone stays as it is', () => {
    const shown = createDetailMerger()([wall, ...drops]);
    expect(shown).toHaveLength(2);
    expect(shown[0]).toBe(wall);
    expect(shown[1].shape.type).toBe('mesh');
    expect(shown[1].recordId).toBe('piece:glass');
  });

  it('lies where the drops lie: 1 mm round the first and the last, 5.99 m apart', () => {
    const { minM, maxM } = boundsOfShape(mergeSurfaces(drops));
    expect(minM[0]).toBeCloseTo(-0.001, 4);
    expect(maxM[0]).toBeCloseTo(5.99 + 0.001, 4);
    expect((minM[1] + maxM[1]) / 2).toBeCloseTo(0.1, 5);
  });

  it('is the same object again while its members are, and another when one of them moves', () => {
    const merge = createDetailMerger();
    const first = merge(drops).at(-1);
    expect(merge([...drops]).at(-1)).toBe(first);
    expect(merge([{ ...drops[0] }, ...drops.slice(1)]).at(-1)).not.toBe(first);
  });

  it('leaves apart what shines, and drops of another record', () => {
    const lit = drops.slice(0, 20).map((surface) => ({
      ...surface,
      emission: { fixtureId: 'f', axialLuminanceNits: 1, profile: { type: 'lambert' } as const },
    }));
    expect(createDetailMerger()(lit)).toHaveLength(20);
    const two = [...drops.slice(0, 10), ...drops.slice(0, 10).map((surface) => ({ ...surface, recordId: 'piece:b' }))];
    expect(createDetailMerger()(two)).toHaveLength(2);
  });
});
