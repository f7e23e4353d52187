import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CheckFrameOptions, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, glossSheet, panel, scene, tonic } from './helpers/scenes.ts';

const subject = { pieceId: 'tonic', meterPointM: [0, 0.08, 0] as [number, number, number] };
const set = (ice: Record<string, unknown> | undefined, lux = 3000, parts: Partial<FrameScene> = {}): FrameScene =>
  scene({
    pieces: [glossSheet(), tonic({ ice })],
    fixtures: [panel({ output: { unit: 'luxAtDistance', value: lux, distanceM: 1 } })],
    subject,
    ...parts,
  });
const CUBES = { count: 4, edgeM: 0.03, bevelM: 0.003 };
const room = (patch: Partial<NonNullable<CheckFrameOptions['room']>>) => ({
  temperatureC: 22,
  drinkC: 2,
  mainsV: 230,
  mainsHz: 50,
  circuitA: 10,
  ...patch,
});
const check = (of: FrameScene, options: CheckFrameOptions = {}): CheckResult =>
  checkFrame(of, { checks: ['heroTime'], room: room({}), ...options });
const only = ({ findings }: CheckResult): Finding | undefined => findings[0];

describe('hero time', () => {
  it('is ok with large cubes in a cold drink, and says range, ice and share of the lights', () => {
    const finding = only(check(set(CUBES)));
    expect(finding?.grade).toBe('ok');
    expect(finding?.unit).toBe('min (estimate)');
    expect(finding?.summary).toMatch(
      /^Tonic holds for about \d+ min \(estimate, .* to .*\): then a third of its \d+ g of ice is gone\. The lights bring \d+ % of the heat\.$/,
    );
  });

  it('fires on a little ice in a warm drink in a hot room', () => {
    const finding = only(
      check(set({ count: 2, edgeM: 0.02, bevelM: 0.002 }), { room: room({ temperatureC: 32, drinkC: 20 }) }),
    );
    expect(finding?.grade).toBe('stop');
    expect(finding?.value).toBeLessThan(2);
  });

  it('says nothing of a drink without ice, or of a subject that is no glass', () => {
    expect(check(set(undefined)).findings).toEqual([]);
    expect(check(scene({ pieces: [glossSheet(), block()] })).findings).toEqual([]);
  });

  it('keeps its range in order and loses time with every kind of heat', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 12, max: 35, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 100, max: 200000, noNaN: true }),
        (temperatureC, drinkC, lux) => {
          const at = (warmer: number, brighter: number) =>
            check(set(CUBES, lux * brighter), { room: room({ temperatureC: temperatureC + warmer, drinkC }) }).figures
              .heroTime as Record<string, number>;
          const base = at(0, 1);
          expect(base.shortestMin).toBeLessThanOrEqual(base.likelyMin);
          expect(base.likelyMin).toBeLessThanOrEqual(base.longestMin);
          expect(at(5, 1).likelyMin).toBeLessThanOrEqual(base.likelyMin);
          expect(at(0, 3).likelyMin).toBeLessThanOrEqual(base.likelyMin);
          expect(at(0, 3).heatOfLightsW / base.heatOfLightsW).toBeCloseTo(3, 6);
        },
      ),
      { seed: 6, numRuns: 8 },
    );
  });

  it('lasts longer with more ice', () => {
    const minutes = (count: number): number => only(check(set({ ...CUBES, count })))?.value ?? 0;
    expect(minutes(4)).toBeGreaterThan(minutes(2));
  });
});
