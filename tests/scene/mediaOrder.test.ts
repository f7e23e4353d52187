import { describe, expect, it } from 'vitest';
import { buildSet } from '../../src/scene/buildSet.ts';
import {
  defaultDrink,
  defaultFoam,
  defaultGlassProfile,
  defaultIceOf,
  mediumOfLibrary,
} from '../../src/scene/pieceDefaults.ts';
import type { GlassPiece } from '../../src/scene/pieces/glass.ts';
import type { GlassProfile } from '../../src/scene/records.ts';
import { createProbe } from './probe.ts';
import { glassOf, sceneOf } from './sceneTools.ts';

const probeOf = (profile: GlassProfile, more: Partial<GlassPiece> = {}) => {
  const set = buildSet(sceneOf([glassOf(profile, more)]));
  expect(set.diagnostics.filter((d) => d.severity === 'error')).toEqual([]);
  return createProbe(set);
};
const names = (media: readonly string[]): string[] => media.map((m) => m.replace('glass:', ''));
const DOWN = [0, -1, 0] as const;
const ALONG = [1, 0, 0] as const;
const layer = (id: string, share: number) => {
  const medium = mediumOfLibrary(id);
  if (!medium) throw new Error('in the library');
  return { ...medium, share };
};

describe('the order of media along a line', () => {
  it('down through three layers: each touches the next, no air between', () => {
    const drink = { ...defaultDrink(), layers: [layer('apple-juice', 0.3), layer('tonic', 0.3)] };
    const { media } = probeOf(defaultGlassProfile('highball'), { drink })([0.0013, 1, 0.0017], DOWN);
    expect(names(media)).toEqual(['air', 'drink-3', 'drink-2', 'drink', 'glass', 'air']);
  });

  it('level through each layer: glass, that layer, glass', () => {
    const drink = {
      ...defaultDrink(),
      fillFraction: 0.9,
      layers: [layer('apple-juice', 1 / 3), layer('tonic', 1 / 3)],
    };
    const probe = probeOf(defaultGlassProfile('highball'), { drink });
    const at = (y: number) => names(probe([-1, y, 0.0011], ALONG).media);
    expect(at(0.03)).toEqual(['air', 'glass', 'drink', 'glass', 'air']);
    expect(at(0.065)).toEqual(['air', 'glass', 'drink-2', 'glass', 'air']);
    expect(at(0.11)).toEqual(['air', 'glass', 'drink-3', 'glass', 'air']);
    expect(at(0.136)).toEqual(['air', 'glass', 'air', 'glass', 'air']);
  });

  it('down through a head of foam: air, foam, drink, glass; across it: glass, foam, glass', () => {
    const drink = { ...defaultDrink(), fillFraction: 0.7, foam: defaultFoam() };
    const probe = probeOf(defaultGlassProfile('highball'), { drink });
    expect(names(probe([0.0013, 1, 0.0017], DOWN).media)).toEqual(['air', 'foam', 'drink', 'glass', 'air']);
    expect(names(probe([-1, 0.113, 0.0011], ALONG).media)).toEqual(['air', 'glass', 'foam', 'glass', 'air']);
  });

  it('down through floating cloudy ice: ice over drink, haze and core inside the ice', () => {
    const ice = { ...defaultIceOf('sphere'), edgeM: 0.04, cloudyCore: 1 };
    const drink = { ...defaultDrink(), fillFraction: 0.8 };
    const piece = glassOf(
      { ...defaultGlassProfile('highball'), rimDiameterM: 0.0438, baseDiameterM: 0.0438 } as GlassProfile,
      { drink, ice },
    );
    const set = buildSet(sceneOf([piece]));
    const middle = set.surfaces.find((s) => s.role === 'ice 1 ball')?.worldFromLocal.translationM;
    if (!middle) throw new Error('a ball of ice');
    const { media } = createProbe(set)([middle[0], 1, middle[2]], DOWN);
    expect(names(media)).toEqual(['air', 'ice', 'ice-haze', 'ice-core', 'ice-haze', 'ice', 'drink', 'glass', 'air']);
  });

  it('through a bubble: drink, air of the bubble, drink', () => {
    const drink = {
      ...defaultDrink(),
      bubbles: { rising: 30, clinging: 10, minDiameterM: 0.001, maxDiameterM: 0.002, seed: 1 },
    };
    const set = buildSet(sceneOf([glassOf(defaultGlassProfile('highball'), { drink })]));
    const bubbles = set.surfaces.filter((s) => s.role === 'bubble');
    expect(bubbles.length).toBeGreaterThan(20);
    const probe = createProbe(set);
    for (const { worldFromLocal } of bubbles) {
      const [x, y, z] = worldFromLocal.translationM;
      const media = names(probe([x, y, z - 1], [0, 0, 1]).media);
      const at = media.indexOf('bubbles');
      expect(media[at - 1]).toBe('drink');
      expect(media[at + 1]).toBe('drink');
    }
    expect(set.volumes.find((v) => v.id === 'glass:bubbles')?.medium.index).toBe(1);
  });

  it('through the root of a handle: one run of glass, without a gap, from the bar into the wall', () => {
    const probe = probeOf(defaultGlassProfile('mug'));
    // Level along the upper root at azimuth 0: 66 + 36 mm up, and over the foot's lift.
    const { media, together } = probe([-1, 0.066 + 0.036 + 0.0002, 0.0004], ALONG);
    expect(names(media)).toEqual(['air', 'glass', 'air', 'glass', 'handle', 'air']);
    expect([...together]).toContain('glass:glass + glass:handle');
  });

  it('into a groove: air to where it is cut, then glass', () => {
    const profile = { ...defaultGlassProfile('doubleTumbler'), wallM: 0.004 } as GlassProfile;
    const cut = { style: 'flutes', count: 18, depthM: 0.001, bottomM: 0.02, topM: 0.08, seed: 1 } as const;
    const set = buildSet(sceneOf([glassOf(profile, { cut })]));
    // The first groove stands at azimuth 0; the last hit of a ray along +x at mid height is its back.
    const { media } = createProbe(set)([0, 0.05, 0], ALONG);
    expect(names(media)).toEqual(['air', 'glass', 'cut', 'air']);
    expect(set.volumes.find((v) => v.id === 'glass:cut')?.medium.index).toBe(1);
  });

  it('through a drop: water, glass, drink; the part of the drop in the glass does nothing', () => {
    const drink = { ...defaultDrink(), fillFraction: 0.8 };
    const condensation = { dropsPerCm2: 1, minDiameterM: 0.001, maxDiameterM: 0.002, seed: 3 };
    const set = buildSet(sceneOf([glassOf(defaultGlassProfile('highball'), { drink, condensation })]));
    const probe = createProbe(set);
    const drops = set.surfaces.filter((s) => s.role === 'drop' && s.shape.type === 'revolvedArc');
    expect(drops.length).toBeGreaterThan(50);
    for (const { worldFromLocal } of drops) {
      const [x, y, z] = worldFromLocal.translationM;
      if (y < 0.02 || y > 0.1) continue;
      const r = Math.hypot(x, z);
      const { media } = probe([(x / r) * 0.2, y, (z / r) * 0.2], [-x / r, 0, -z / r]);
      expect(names(media).slice(0, 4)).toEqual(['air', 'drops', 'glass', 'drink']);
    }
  });
});
