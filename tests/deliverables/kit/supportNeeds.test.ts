import { describe, expect, it } from 'vitest';
import { translation } from '../../../src/core/rigid.ts';
import { cableNeeds, distributionPointM } from '../../../src/deliverables/kit/cableNeeds.ts';
import { closeToHeat } from '../../../src/deliverables/kit/risks.ts';
import { mostOfNeeds, supportNeeds } from '../../../src/deliverables/kit/supportNeeds.ts';
import { closestOnTriangle, gapBetweenM } from '../../../src/deliverables/kit/surfaceGap.ts';
import { openFrame } from '../helpers/openFrames.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

describe('supportNeeds', () => {
  const { needs, floorAssumed } = supportNeeds(openFrame(studioSetup()));
  const of = (id: string) => needs.find(({ recordId }) => recordId === id);

  it('stands a light beside the table on a plain stand', () => {
    // The key's plumb point, x = -0.913, lies outside the table, which ends at -0.8.
    expect(of('fixture:key')).toMatchObject({ support: 'stand', reachM: 0 });
  });

  it('hangs a light over the table on a boom that reaches 100 mm past the nearest edge', () => {
    // Top light at x = 0.151, z = -0.246: the nearest edge of sweep or table is the table's at z = -0.45 (0.204 m off);
    // the sweep reaches back to z = -0.65, 0.404 m off, and counts: 0.404 + 0.1 m.
    const top = of('fixture:top');
    expect(top?.support).toBe('boom');
    expect(top?.reachM).toBeCloseTo(0.504, 3);
    expect(top?.heightOverFloorM).toBeCloseTo(1.037 + 0.762, 9);
    // 1 + 14 x 0.6 x 0.3 = 3.52 kg; counterweight (3.52 x 0.504 + 2 x (0.504 - 0.6) / 2) / 0.6.
    expect(top?.counterweightKg).toBeCloseTo((3.52 * 0.504 + 2 * ((0.504 - 0.6) / 2)) / 0.6, 6);
  });

  it('sets a card that reaches down to the table on the table', () => {
    expect(of('grip:card')).toMatchObject({ support: 'on the table', sandbags: 0 });
  });

  it('takes the floor from the flat that stands on it', () => {
    expect(floorAssumed).toBe(false);
    expect(supportNeeds(openFrame(studioSetup()), 1).needs[0].heightOverFloorM).toBeCloseTo(0.728 + 1, 9);
  });

  it('keeps the heavier need of two frames', () => {
    const [a, b] = [needs[0], { ...needs[0], support: 'boom' as const }];
    expect(mostOfNeeds([[a], [b], [a]])).toEqual([b]);
  });

  it('moves a stand out of the frame when its column would show', () => {
    const setup = structuredClone(studioSetup());
    // Behind the table, in the middle of the view: no table under it, but seen.
    setup.fixtures[0].positionM = [0.05, 0.7, -0.9];
    const seen = supportNeeds(openFrame(setup)).needs[0];
    expect(seen.reachM).toBeGreaterThan(0.2);
    expect(seen.support).toBe('boom');
  });
});

describe('cableNeeds', () => {
  it('runs down the stand and along the floor to the back left corner, 1.3 times, to the next length', () => {
    const frameSet = openFrame(studioSetup());
    const [x, y, z] = distributionPointM(frameSet);
    expect(y).toBe(-0.762);
    // Half a metre outside the flat's back face, 20 mm behind z = -1.25, and outside all else at the left.
    expect(z).toBeCloseTo(-1.77, 9);
    for (const { minM } of frameSet.set.boundsByRecord.values()) expect(x).toBeLessThanOrEqual(minM[0] - 0.5 + 1e-9);
    const key = cableNeeds(frameSet)[0];
    expect(key.pathM).toBeCloseTo(1.3 * (0.728 + 0.762 + (-0.913 - x) + (0.391 - z)), 9);
    expect(key.lengthM).toBe(10);
  });
});

describe('gaps', () => {
  it('finds the nearest point of a triangle over its face, an edge and a corner', () => {
    const triangle = [
      [0, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
    ] as const;
    expect(closestOnTriangle([0.2, 0.2, 5], triangle)).toEqual([expect.closeTo(0.2), expect.closeTo(0.2), 0]);
    expect(closestOnTriangle([0.5, -2, 0], triangle)).toEqual([0.5, 0, 0]);
    expect(closestOnTriangle([1, 1, 0], triangle)).toEqual([expect.closeTo(0.5), expect.closeTo(0.5), 0]);
    expect(closestOnTriangle([-1, -1, 3], triangle)).toEqual([0, 0, 0]);
  });

  it('measures 0.25 m between two parallel sheets and stops looking at 0.1 m', () => {
    const sheet = (z: number) => ({
      shape: {
        type: 'quad' as const,
        originM: [0, 0, 0] as const,
        edgeUM: [1, 0, 0] as const,
        edgeVM: [0, 1, 0] as const,
      },
      worldFromLocal: translation([0, 0, z]),
    });
    expect(gapBetweenM([sheet(0)], [sheet(0.25)], 1)).toBeCloseTo(0.25, 12);
    expect(gapBetweenM([sheet(0)], [sheet(0.25)], 0.1)).toBe(0.1);
  });

  it('names a bulb 120 mm over the sweep, and nothing that is farther than 300 mm', () => {
    const setup = structuredClone(studioSetup());
    // 6 cm across, its middle 0.15 over the paper.
    setup.fixtures[4].positionM = [0.2, 0.1505, 0.2];
    const gaps = closeToHeat([openFrame(setup)]);
    const bulb = gaps.find(({ light, other }) => light.id === 'fixture:lamp' && other.id === 'piece:sweep');
    expect(bulb?.gapM).toBeCloseTo(0.12, 3);
    for (const { gapM } of gaps) expect(gapM).toBeLessThan(0.3);
    expect(gaps.some(({ other }) => other.id === 'piece:glass')).toBe(false);
  });
});
