import { describe, expect, it } from 'vitest';
import { buildSet } from '../../src/scene/buildSet.ts';
import { createSetMemory } from '../../src/scene/setMemory.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { compileWorld } from '../../src/transport/compile/compileWorld.ts';
import { demoScene } from '../analysis/helpers/scenes.ts';

/** As it comes over a thread: equal, and no object of it the same. */
const copyOf = (of: FrameScene): FrameScene => structuredClone(of);
const moved = (of: FrameScene, id: string): FrameScene => ({
  ...of,
  fixtures: of.fixtures.map((fixture) => (fixture.id === id ? { ...fixture, positionM: [0.7, 0.9, 0.7] } : fixture)),
});

describe('building one set after another', () => {
  it('gives the same set and the same world, to the last bit, as building each anew', () => {
    const memory = createSetMemory();
    const start = demoScene();
    const steps = [
      start,
      copyOf(start),
      moved(start, 'fill'),
      moved(start, 'key'),
      start,
      { ...start, pieces: start.pieces.slice(1) },
    ];
    for (const step of steps) {
      const [remembered, anew] = [buildSet(copyOf(step), memory), buildSet(step)];
      expect(remembered).toEqual(anew);
      expect(compileWorld(remembered)).toEqual(compileWorld(anew));
    }
  });

  it('gives the very surfaces of every record that did not change, and new ones of the one that did', () => {
    const memory = createSetMemory();
    const before = buildSet(demoScene(), memory);
    const after = buildSet(copyOf(moved(demoScene(), 'fill')), memory);
    expect(after.surfaces).toHaveLength(before.surfaces.length);
    after.surfaces.forEach((surface, i) => {
      expect(surface === before.surfaces[i], surface.recordId).toBe(surface.recordId !== 'fill');
    });
  });

  it('tells two records apart that differ in their place alone', () => {
    const start = demoScene();
    const turned = {
      ...start,
      turntable: {
        centreM: [0, 0, 0] as [number, number, number],
        diameterM: 0.4,
        thicknessM: 0.02,
        rpm: 2,
        runOutM: 0,
        carries: ['tonic'],
      },
      turntableAngleDeg: 30,
    };
    const memory = createSetMemory();
    buildSet({ ...turned, turntableAngleDeg: 0 }, memory);
    expect(buildSet(turned, memory)).toEqual(buildSet(turned));
  });
});
