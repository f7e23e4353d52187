import { describe, expect, it } from 'vitest';
import { createFrameStudy } from '../../src/analysis/index.ts';
import type { OpticalSurface, Volume } from '../../src/materials/surface.ts';
import { bareInput, glowingQuad, quad, slab } from './helpers/bareSet.ts';

const LOOK = { positionM: [0, 0, 1], aimM: [0, 0, 0], iso: 100, shutterS: 1 };
const medium = (id: string, index: number, priority: number, perM = 0): Volume => ({
  id,
  recordId: 'slab',
  medium: { index, absorptionPerM: [perM, perM, perM] },
  priority,
});
/** Faces the camera from behind the slab. */
const lampBehind = glowingQuad([-5, -5, -1], [10, 0, 0], [0, 10, 0], 1000);

const follow = (surfaces: readonly OpticalSurface[], volumes: readonly Volume[], angleDeg = 0) => {
  const { tree } = createFrameStudy(bareInput(surfaces, volumes, LOOK)).tracer();
  const angle = (angleDeg * Math.PI) / 180;
  const arrivals: { nits: number; events: number; transmitted: boolean }[] = [];
  tree.follow([-Math.tan(angle), 0, 1], [Math.sin(angle), 0, -Math.cos(angle)], (arrival) =>
    arrivals.push({ nits: arrival.luminanceNits, events: arrival.events, transmitted: arrival.transmitted }),
  );
  return { arrivals, total: arrivals.reduce((sum, { nits }) => sum + nits, 0), lamp: tree.lampInView.surfaceIndex };
};

describe('the walk through mirror-like and clear surfaces', () => {
  it.each([
    [0, 0.92544, 0.038725],
    [45, 0.90975, 0.048845],
    [60, 0.8505, 0.087521],
  ])('sees a lamp through a clear slab of 1.49 at %f degrees at %f of its luminance', (angleDeg, exact, r) => {
    // Lossless slab, all internal bounces: mean over both polarisations of (1 - R)/(1 + R); Born and Wolf s. 1.5 (from
    // memory). The walk forgets polarisation between events, so it gives (1 - R)/(1 + R) of the mean R: 1.4 % less at 60.
    const { total } = follow([lampBehind, ...slab('glass', 0.01)], [medium('glass', 1.49, 1)], angleDeg);
    expect(Math.abs(total / 1000 / ((1 - r) / (1 + r)) - 1)).toBeLessThan(0.001);
    expect(Math.abs(total / 1000 / exact - 1)).toBeLessThan(0.015);
  });

  it('passes .7 of the light through 10 mm and .343 through 30 mm of a drink of .0356675 /mm (Beer-Lambert)', () => {
    const at = (thicknessM: number) =>
      follow([lampBehind, ...slab('drink', thicknessM)], [medium('drink', 1.0001, 1, 35.6675)]).total / 1000;
    expect(at(0.01)).toBeCloseTo(0.7, 4);
    expect(at(0.03)).toBeCloseTo(0.343, 4);
  });

  it('does nothing at a boundary inside a volume of higher priority', () => {
    // A sheet of drink from z = -.002 to -.004 inside glass that fills 0 to -.01: only the glass counts.
    const inner = slab('drink', 0.002).map((surface) => ({
      ...surface,
      worldFromLocal: { ...surface.worldFromLocal, translationM: [0, 0, -0.002] as const },
    }));
    const volumes = [medium('glass', 1.52, 2), medium('drink', 1.333, 1, 500)];
    const glassOnly = follow([lampBehind, ...slab('glass', 0.01)], volumes);
    const both = follow([lampBehind, ...slab('glass', 0.01), ...inner], volumes);
    expect(both.arrivals).toEqual(glassOnly.arrivals);
  });

  it('gives the liquid its own boundary where its priority is higher', () => {
    const inner = slab('drink', 0.002).map((surface) => ({
      ...surface,
      worldFromLocal: { ...surface.worldFromLocal, translationM: [0, 0, -0.002] as const },
    }));
    const volumes = [medium('glass', 1.52, 1), medium('drink', 1.333, 2, 500)];
    const { total } = follow([lampBehind, ...slab('glass', 0.01), ...inner], volumes);
    // exp(-500 x .002) = .36788 and four boundaries.
    expect(total / 1000).toBeLessThan(0.36788);
    expect(total / 1000).toBeGreaterThan(0.36788 * 0.9);
  });

  it('treats one shared face of glass and drink as one boundary: R(1.52 to 1.333) = .0042962', () => {
    // Glass 0 to -.01, drink from there back to -.02 with a lamp glued behind: first boundary .042580, second .0042962.
    const front = quad('slab', [-2, -2, 0], [4, 0, 0], [0, 4, 0], {
      finish: { type: 'clear', roughness: 0 },
      backVolume: 'glass',
    });
    const shared = quad('slab', [-2, -2, -0.01], [4, 0, 0], [0, 4, 0], {
      finish: { type: 'clear', roughness: 0 },
      frontVolume: 'glass',
      backVolume: 'drink',
    });
    const lamp = glowingQuad([-5, -5, -0.02], [10, 0, 0], [0, 10, 0], 1000);
    const { arrivals } = follow([lamp, front, shared], [medium('glass', 1.52, 2), medium('drink', 1.333, 1)]);
    const straight = Math.max(...arrivals.map(({ nits }) => nits));
    expect(straight / 1000).toBeCloseTo((1 - 0.04258) * (1 - 0.0042962), 5);
  });

  it('reflects everything at 45 degrees inside 1.5, past the critical 41.81: a right-angle prism shows what is below', () => {
    const glass = { finish: { type: 'clear', roughness: 0 } as const, backVolume: 'glass' };
    const prism = [
      quad('slab', [-1, -0.5, 0], [2, 0, 0], [0, 1, 0], glass),
      quad('slab', [-1, 0.5, 0], [2, 0, 0], [0, -1, -1], glass),
      quad('slab', [-1, -0.5, 0], [0, 0, -1], [2, 0, 0], glass),
    ];
    const below = glowingQuad([-5, -2, 5], [10, 0, 0], [0, 0, -10], 1000);
    const { arrivals } = follow([lampBehind, below, ...prism], [medium('glass', 1.5, 1)]);
    const brightest = Math.max(...arrivals.map(({ nits }) => nits));
    // Two boundaries at normal incidence, R = .04 each, and no loss at the slope; none of the lamp behind it.
    expect(brightest / 1000).toBeCloseTo(0.96 ** 2, 6);
    expect(arrivals.find(({ nits }) => nits === brightest)?.events).toBe(3);
  });

  it('adds up to the lamp exactly when glass splits the ray: R + T = 1 with a lamp all round', () => {
    const walls = [lampBehind, glowingQuad([5, -5, 2], [-10, 0, 0], [0, 10, 0], 1000)];
    const { total } = follow([...walls, ...slab('glass', 0.01)], [medium('glass', 1.6, 1)], 30);
    // Chains under 1e-4 of the light are dropped.
    expect(total).toBeGreaterThan(999);
    expect(total).toBeLessThanOrEqual(1000.001);
  });

  it('meets a lamp in plain view without an arrival', () => {
    const { arrivals, lamp } = follow([lampBehind], []);
    expect(arrivals).toEqual([]);
    expect(lamp).toBe(0);
  });
});
