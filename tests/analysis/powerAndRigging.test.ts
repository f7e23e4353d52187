import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CheckFrameOptions,
  type CheckResult,
  checkFrame,
  DEFAULT_ROOM,
  type Finding,
} from '../../src/analysis/index.ts';
import { layOnCircuits } from '../../src/analysis/rigging/circuits.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, grip, panel, piece, scene } from './helpers/scenes.ts';

const table = piece({
  kind: 'tabletop',
  id: 'table',
  name: 'Table',
  positionM: [0, 0, 0],
  widthM: 1.6,
  depthM: 0.9,
  finish: { type: 'matte', reflectanceRgb: [0.3, 0.3, 0.3] },
});
const light = (id: string, powerW: number | undefined, positionM = [1.6, 0.8, 1]) =>
  panel({ id, name: id, positionM, aimM: [0, 0.1, 0], powerW });
const set = (fixtures: FrameScene['fixtures'], parts: Partial<FrameScene> = {}): FrameScene =>
  scene({ pieces: [table, block({ positionM: [0, 0.0001, 0] })], fixtures, ...parts });
const check = (of: FrameScene, options: CheckFrameOptions = {}): CheckResult =>
  checkFrame(of, { checks: ['powerAndRigging'], ...options });
const find = ({ findings }: CheckResult, id: string): Finding | undefined =>
  findings.find((finding) => finding.id === `powerAndRigging:${id}`);

describe('power and rigging', () => {
  it('is ok with three small lights on one circuit, and still says who decides', () => {
    const finding = find(check(set([light('a', 90), light('b', 150), light('c', 60)])), 'power');
    expect(finding?.grade).toBe('ok');
    expect(finding?.summary).toMatch(
      /^3 lights draw 300 W at full, 1\.4 A at 230 V: one circuit of 10 A carries them at 14 %\./,
    );
    expect(finding?.summary).toContain('RCD or GFCI');
    expect(finding?.summary).toMatch(/Local rules and licensed people decide\.$/);
  });

  it('fires when they need more than one circuit, and says which goes where', () => {
    const finding = find(check(set([light('a', 1200), light('b', 900), light('c', 300)])), 'power');
    expect(finding?.grade).toBe('care');
    expect(finding?.summary).toContain('spread them over 2 circuits of 10 A (a, c; b)');
  });

  it('stops at a light that no circuit of the room carries', () => {
    const room = { ...DEFAULT_ROOM, mainsV: 120, circuitA: 15 };
    const finding = find(check(set([light('arc', 2400)]), { room }), 'power');
    expect(finding?.grade).toBe('stop');
    expect(finding?.summary).toContain('arc alone is more than a 15 A circuit carries');
  });

  it('assumes 100 lm per watt where a record states no power, and says so', () => {
    const of = set([panel({ id: 'a', name: 'a', positionM: [1.6, 0.8, 1], output: { unit: 'lumens', value: 9000 } })]);
    const result = check(of);
    expect((result.figures.powerAndRigging as Record<string, number>).totalPowerW).toBeCloseTo(90, 6);
    expect(find(result, 'power')?.summary).toContain('some of it assumed from their lumens');
  });

  it('notes a light that hangs over the table, and cares when it is heavy and far out', () => {
    const over = light('over', 90, [0, 0.9, -0.3]);
    const result = check(set([over]));
    const boom = find(result, 'boom:over');
    expect(boom?.grade).toMatch(/note|care/);
    expect(boom?.summary).toMatch(/hangs [\d.]+ m from where a stand can be: about [\d.]+ kg at 0\.6 m balance it/);
    const heavy = panel({
      id: 'heavy',
      name: 'heavy',
      positionM: [0, 1.2, 0],
      aimM: [0, 0, 0],
      widthM: 1.2,
      heightM: 0.6,
      powerW: 300,
    });
    expect(find(check(set([heavy])), 'boom:heavy')?.grade).toBe('care');
  });

  it('lets a light stand that has floor under it and is out of the frame', () => {
    expect(check(set([light('beside', 90)])).findings.map(({ id }) => id)).toEqual(['powerAndRigging:power']);
  });

  it('notes what stands close to a warm lamp, without a limit of its own', () => {
    const cloth = grip({
      kind: 'diffusionFrame',
      id: 'cloth',
      name: 'Cloth',
      positionM: [1.45, 0.72, 0.9],
      aimM: [0, 0.1, 0],
      widthM: 0.6,
      heightM: 0.6,
    });
    const finding = find(check(set([light('a', 300)], { grip: [cloth] })), 'near:a');
    expect(finding?.grade).toBe('note');
    expect(finding?.limit).toBeNull();
    expect(finding?.summary).toContain('keep the distance that is marked on the lamp');
    expect(find(check(set([light('a', 10)], { grip: [cloth] })), 'near:a')).toBeUndefined();
  });

  it('counts no light that is off, and says nothing without lights', () => {
    expect(check(set([{ ...light('a', 500), on: false }])).findings).toEqual([]);
    const lamp = fixture({
      kind: 'bulb',
      id: 'b',
      name: 'b',
      positionM: [0.2, 0.2, 0],
      aimM: [0, 0, 0],
      output: { unit: 'lumens', value: 400 },
    });
    expect(find(check(set([lamp], { camera: camera() })), 'boom:b')).toBeUndefined();
  });

  it('never fills a circuit past its share unless one load is more than that, and loses no load', () => {
    const amps = fc.array(fc.double({ min: 0.1, max: 12, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(amps, (list) => {
        const loads = list.map((currentA, i) => ({ id: `${i}`, powerW: currentA * 230, currentA }));
        const circuits = layOnCircuits(loads, 10, 0.8);
        for (const circuit of circuits)
          if (circuit.loads.length > 1) expect(circuit.currentA).toBeLessThanOrEqual(8 + 1e-6);
        expect(circuits.flatMap((circuit) => circuit.loads.map(({ id }) => id)).sort()).toEqual(
          loads.map(({ id }) => id).sort(),
        );
      }),
      { seed: 51, numRuns: 60 },
    );
  });
});
