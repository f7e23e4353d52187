import { describe, expect, it } from 'vitest';
import type { Medium } from '../../src/materials/surface.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { BLEND_STEPS, blendLayers, mixMedia } from '../../src/scene/drink/blendLayers.ts';
import { defaultGlassProfile, drinkOfLibrary, mediumOfLibrary } from '../../src/scene/pieceDefaults.ts';
import { drinkSchema } from '../../src/scene/records.ts';
import { createProbe } from './probe.ts';
import { glassOf, sceneOf } from './sceneTools.ts';

const LOW: Medium = { index: 1.35, absorptionPerM: [10, 20, 30] };
const HIGH: Medium = { index: 1.33, absorptionPerM: [0, 60, 90], scatteringPerM: [100, 100, 100], anisotropy: 0.6 };

describe('a layer that has run into the one under it', () => {
  it('keeps the volume of each drink: the mean of its bands is half and half (Beer-Lambert law of a mixture)', () => {
    const bands = blendLayers(LOW, [{ medium: HIGH, share: 0.6, blend: 0.5 }]);
    expect(bands).toHaveLength(BLEND_STEPS + 1);
    expect(bands.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(0.6, 12);
    const mixed = bands.slice(0, BLEND_STEPS);
    const mean = mixed.reduce((sum, { medium }) => sum + medium.absorptionPerM[1], 0) / BLEND_STEPS;
    expect(mean).toBeCloseTo((20 + 60) / 2, 12);
    expect(bands[BLEND_STEPS]).toEqual({ medium: HIGH, share: 0.3 });
  });

  it('goes evenly from the one to the other, each step a fourteenth', () => {
    const greens = blendLayers(LOW, [{ medium: HIGH, share: 0.6, blend: 1 }]).map((b) => b.medium.absorptionPerM[1]);
    expect(greens[0]).toBeCloseTo(20 + 40 / 28, 12);
    for (let k = 1; k < greens.length; k++) expect(greens[k] - greens[k - 1]).toBeCloseTo(40 / BLEND_STEPS, 12);
  });

  it('is one sharp layer when blend is 0', () =>
    expect(blendLayers(LOW, [{ medium: HIGH, share: 0.6, blend: 0 }])).toEqual([{ medium: HIGH, share: 0.6 }]));

  it('a fifth of a cloudy drink in a clear one scatters a fifth as much, the same way ahead', () => {
    const mixed = mixMedia(LOW, HIGH, 0.2);
    expect(mixed.scatteringPerM).toEqual([20, 20, 20]);
    expect(mixed.anisotropy).toBeCloseTo(0.6, 12);
    expect(mixed.index).toBeCloseTo(1.346, 12);
  });

  it('stands in a glass as closed bands that touch, from the floor up', () => {
    const drink = drinkSchema.parse({
      ...drinkOfLibrary('orange-juice'),
      layers: [{ ...mediumOfLibrary('hibiscus'), share: 0.6, blend: 0.75 }],
    });
    const set = buildSet(sceneOf([glassOf(defaultGlassProfile('highball'), { drink })]));
    expect(set.diagnostics.filter((d) => d.severity === 'error')).toEqual([]);
    const { media } = createProbe(set)([0.004, 1, 0.003], [0, -1, 0]);
    const liquids = media.filter((name) => name.includes('drink'));
    expect(liquids).toHaveLength(BLEND_STEPS + 2);
    expect(liquids[0]).toBe(`glass:drink-${BLEND_STEPS + 2}`);
    expect(liquids[liquids.length - 1]).toBe('glass:drink');
  });
});
