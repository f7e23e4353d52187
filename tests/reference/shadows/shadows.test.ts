import { describe, expect, it } from 'vitest';
import { checkFrame, createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import { castHeroShadows } from '../../../src/analysis/shadows/castShadow.ts';
import { penumbraOf, umbraWidthM } from '../../../src/analysis/shadows/penumbra.ts';
import { createRandom } from '../../../src/core/rng.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { createPathTracer } from '../../../src/transport/cpu/pathTracer.ts';
import { fixture, matteSheet, panel, piece, scene } from '../../analysis/helpers/scenes.ts';

/* Shadow and penumbra are elementary geometry (similar triangles); the figures are computed from it. */

const TABLE = { pointM: [0, 0, 0], normal: [0, 1, 0] } as const;
/** A square of side s about (0, heightM, 0), facing down. */
const square = (s: number, heightM: number): Vec3[] => [
  [-s / 2, heightM, -s / 2],
  [s / 2, heightM, -s / 2],
  [s / 2, heightM, s / 2],
  [-s / 2, heightM, s / 2],
];

describe('penumbra', () => {
  it.each([
    [0.6, 1, 0.2, 0.12],
    [0.3, 1.5, 0.1, 0.02],
    [1.2, 0.8, 0.3, 0.45],
  ])('of a %f m light, %f m from the edge and %f m to the receiver is s b / a = %f m', (s, a, b, expected) => {
    expect(penumbraOf(square(s, a + b), [0, b, 0], TABLE, [1, 0, 0])).toBeCloseTo(expected, 9);
  });

  it.each([
    [0.3, 2.775e-3],
    [1, 9.2503e-3],
    [2, 18.5006e-3],
  ])('of the sun, .53 degrees wide, %f m beyond the edge is %f m', (b, expected) => {
    // A disc of that angle, far off: 2 b tan(.265 deg).
    const radiusM = 1e5 * Math.tan((0.265 * Math.PI) / 180);
    const rim = Array.from({ length: 360 }, (_, i): Vec3 => {
      const angle = (i * Math.PI) / 180;
      return [radiusM * Math.cos(angle), 1e5 + b, radiusM * Math.sin(angle)];
    });
    expect((penumbraOf(rim, [0, b, 0], TABLE, [1, 0, 0]) ?? 0) / expected).toBeCloseTo(1, 3);
  });

  it('ends the full shadow of an 8 cm strip under a .6 m light .1538462 m behind it; .028 m are left at .1 m', () => {
    expect(umbraWidthM(0.08, 0.6, 1, 0.1)).toBeCloseTo(0.028, 9);
    expect(umbraWidthM(0.08, 0.6, 1, 0.1538462)).toBeCloseTo(0, 6);
    expect(umbraWidthM(0.08, 0.6, 1, 0.2)).toBe(0);
  });
});

/** A round post .2 m high on a matte table, under one bulb. */
const post = (bulbM: Vec3, diameterM = 0.01): FrameScene =>
  scene({
    pieces: [
      matteSheet(),
      piece({
        kind: 'plinthCylinder',
        id: 'hero',
        name: 'Post',
        positionM: [0, 0.005, 0],
        diameterM: 0.06,
        heightM: 0.2,
        edgeRadiusM: 0.0001,
        finish: { type: 'matte', reflectanceRgb: [0.2, 0.2, 0.2] },
      }),
    ],
    fixtures: [
      fixture({
        kind: 'bulb',
        id: 'bulb',
        name: 'Bulb',
        positionM: bulbM,
        aimM: [0, 0, 0],
        diameterM,
        output: { unit: 'lumens', value: 20000 },
      }),
    ],
  });
const shadowOf = (of: FrameScene) => {
  const study = createFrameStudy(createCheckInput(of));
  const hero = study.hero();
  if (!hero) throw new Error('no hero');
  return { hero, shadow: castHeroShadows(study, hero)[0] };
};

describe('the shadow of a post', () => {
  it.each([
    [15, 0.74641],
    [30, 0.34641],
    [45, 0.2],
    [60, 0.11547],
  ])('.2 m high under a far light at %f degrees is %f m long (h / tan), within 2 %%', (elevationDeg, expected) => {
    const elevation = (elevationDeg * Math.PI) / 180;
    const { shadow } = shadowOf(post([-90 * Math.cos(elevation), 90 * Math.sin(elevation), 0]));
    expect(Math.abs((shadow.lengthM ?? 0) / expected - 1)).toBeLessThan(0.02);
    expect(shadow.direction[0]).toBeCloseTo(1, 6);
  });

  it('follows similar triangles, h d / (H - h), and points straight away from the light, for 40 near lights', () => {
    const random = createRandom(9);
    for (let i = 0; i < 40; i++) {
      const angle = random() * 2 * Math.PI;
      const d = 0.3 + 1.2 * random();
      const H = 0.35 + 1.2 * random();
      const { shadow, hero } = shadowOf(post([d * Math.cos(angle), 0.005 + H, d * Math.sin(angle)]));
      const h = hero.heightM;
      expect(h).toBeCloseTo(0.2, 3);
      expect(Math.abs((shadow.lengthM ?? 0) / ((h * d) / (H - h)) - 1)).toBeLessThan(0.02);
      expect(shadow.direction[0]).toBeCloseTo(-Math.cos(angle), 2);
      expect(shadow.direction[2]).toBeCloseTo(-Math.sin(angle), 2);
    }
  });

  it('has a penumbra at the tip as wide as the ball seen through the rim, within 2 %', () => {
    // Plane of the light: ball of radius r at (-d, H), rim at (R, h). The two tangents from the rim to the ball make angles
    // alpha +- beta with the level, sin beta = r / distance; they meet the table at h / tan(angle) beyond the rim.
    const [d, H, R, h, r] = [0.9, 0.8, 0.03, 0.2, 0.06];
    const { shadow, hero } = shadowOf(post([-d, 0.005 + H, 0], 2 * r));
    expect(hero.topRadiusM).toBeCloseTo(R, 3);
    const alpha = Math.atan2(H - h, d + R);
    const beta = Math.asin(r / Math.hypot(H - h, d + R));
    const expected = h / Math.tan(alpha - beta) - h / Math.tan(alpha + beta);
    expect(Math.abs((shadow.tipPenumbraM ?? 0) / expected - 1)).toBeLessThan(0.02);
  });

  it('is as deep as all light over the light of the others: 1 stop under two equal lights (level E = I sin^3 / H^2)', () => {
    const one = post([-1, 1.005, 0]);
    const two: FrameScene = {
      ...one,
      pieces: [
        ...one.pieces.slice(1),
        ...one.pieces.slice(0, 1).map((sheet) => ({ ...sheet, finish: { type: 'black' } as const })),
      ].reverse() as FrameScene['pieces'],
      fixtures: [...one.fixtures, { ...one.fixtures[0], id: 'other', positionM: [0.7, 1.005, 0.7143] }],
    };
    const { shadow } = shadowOf(two);
    // Near the foot the two differ by a few hundredths of a stop, for one stands a little nearer there.
    expect(Math.abs(shadow.depthStops - 1)).toBeLessThan(0.1);
  });

  it('reads on the traced table: shade over light beside it, within .05 stop at two standard errors', () => {
    const key = panel({
      id: 'key',
      name: 'Key',
      positionM: [-0.7, 0.7, 0.1],
      aimM: [0, 0.1, 0],
      widthM: 0.1,
      heightM: 0.1,
      output: { unit: 'luxAtDistance', value: 3000, distanceM: 1 },
    });
    const fill = panel({
      id: 'fill',
      name: 'Fill',
      positionM: [0.5, 0.8, 0.6],
      aimM: [0, 0.1, 0],
      widthM: 0.3,
      heightM: 0.3,
      output: { unit: 'luxAtDistance', value: 1500, distanceM: 1 },
    });
    const base = post([-1, 1, 0]);
    const of: FrameScene = { ...base, fixtures: [key, fill] };
    const { shadow } = shadowOf(of);
    expect(shadow.caster.id).toBe('key');
    const input = createCheckInput(of);
    const nitsAt = (where: FrameScene, pointM: Vec3): { nits: number; error: number } => {
      const run = where === of ? input : createCheckInput(where);
      const tracer = createPathTracer({
        world: run.query.world,
        view: run.view,
        widthPx: 8,
        heightPx: 8,
        seed: 5,
        maxDepth: 4,
        layerGains: run.layerGains,
      });
      let sum = 0;
      let squares = 0;
      const n = 6000;
      for (let i = 0; i < n; i++) {
        tracer.traceRay(pointM[0], pointM[1] + 0.01, pointM[2], 0, -1, 0, 3, i);
        sum += tracer.luminance[0];
        squares += tracer.luminance[0] ** 2;
      }
      const nits = sum / n;
      return { nits, error: Math.sqrt(Math.max(0, squares / n - nits * nits) / n) };
    };
    const dark = nitsAt(of, shadow.coreM);
    // The same place with the post out of the way of the key but still there for the fill's bounce: moved a metre off.
    const away: FrameScene = {
      ...of,
      pieces: of.pieces.map((entry) => (entry.id === 'hero' ? { ...entry, positionM: [0.9, 0.005, -0.9] } : entry)),
    };
    const light = nitsAt(away, shadow.coreM);
    const traced = Math.log2(light.nits / dark.nits);
    const slack = (2 / Math.LN2) * (dark.error / dark.nits + light.error / light.nits);
    expect(Math.abs(shadow.depthStops - traced)).toBeLessThan(0.05 + slack);
  });
});

describe('the check of shadows', () => {
  it('gives the figures that the geometry gives', () => {
    const { figures } = checkFrame(post([-40, 40, 0]), { checks: ['spillAndShadows'] });
    const [shadow] = (figures.spillAndShadows as { shadows: { lengthM: number; elevationDeg: number }[] }).shadows;
    expect(shadow.elevationDeg).toBeCloseTo(45, 1);
    expect(shadow.lengthM).toBeCloseTo(0.2, 2);
  });
});
