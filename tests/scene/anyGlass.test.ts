import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import {
  defaultGarnish,
  defaultIceOf,
  drinkOfLibrary,
  GARNISH_KINDS,
  GLASS_SHAPES,
  LIBRARY_DRINK_IDS,
  mediumOfLibrary,
} from '../../src/scene/pieceDefaults.ts';
import type { GlassPiece } from '../../src/scene/pieces/glass.ts';
import { ICE_FORMS, type Piece, pieceSchema } from '../../src/scene/records.ts';
import { randomChord } from './meshTools.ts';
import { createProbe } from './probe.ts';
import { glassOf, randomProfile, sceneOf } from './sceneTools.ts';

const pick = <T>(random: () => number, list: readonly T[]): T => list[Math.floor(random() * list.length)];

/** A band wiped dry, half of the time all the way round. */
const wipedBand = (random: () => number, heightM: number): object => ({
  wiped: {
    bottomM: 0.3 * heightM,
    topM: 0.55 * heightM,
    azimuthDeg: 360 * random(),
    spanDeg: random() < 0.5 ? 360 : 90,
  },
});

/** Any glass with any mixture of what can be in it and on it, sizes stretched by up to a fifth. */
function anyGlass(seed: number): GlassPiece {
  const random = createRandom(seed);
  const often = (share: number): boolean => random() < share;
  const shape = pick(random, GLASS_SHAPES);
  const profile = randomProfile(shape, seed, 0.2);
  const heightM = profile.heightM;
  const filled = often(0.85);
  const byVolume = often(0.3);
  const drink = filled
    ? {
        ...(drinkOfLibrary(pick(random, LIBRARY_DRINK_IDS)) ?? { name: '', index: 1.33, absorptionPerM: [0, 0, 0] }),
        fillFraction: byVolume ? undefined : 0.15 + 0.75 * random(),
        fillMl: byVolume ? 20 + 200 * random() : undefined,
        ...(often(0.2)
          ? {
              layers: [
                { ...mediumOfLibrary('tonic'), share: 0.25 },
                { ...mediumOfLibrary('hibiscus'), share: 0.2 },
              ],
            }
          : {}),
        ...(often(0.2) ? { foam: { heightM: 0.03 * random() + 0.002, look: pick(random, ['cloudy', 'matte']) } } : {}),
        ...(often(0.3) ? { bubbles: { rising: 16, clinging: 10, seed } } : {}),
      }
    : undefined;
  const ice = often(0.35)
    ? { ...defaultIceOf(pick(random, ICE_FORMS)), seed, meltMin: often(0.3) ? 30 * random() : 0 }
    : undefined;
  const raw = {
    ...glassOf(profile),
    ...(drink ? { drink } : {}),
    ...(ice ? { ice: { ...ice, count: Math.min(ice.count, 6), cloudyCore: often(0.3) ? random() : 0 } } : {}),
    ...(often(0.2)
      ? {
          garnish: [
            { ...defaultGarnish(pick(random, GARNISH_KINDS)), azimuthDeg: 360 * random() },
            { ...defaultGarnish(pick(random, ['straw', 'stirrer'] as const)), azimuthDeg: 360 * random() },
          ],
        }
      : {}),
    ...(often(0.25)
      ? {
          condensation: {
            dropsPerCm2: 0.4,
            seed,
            ...(often(0.5) ? { mist: random(), ...wipedBand(random, heightM) } : {}),
          },
        }
      : {}),
    ...(often(0.25) ? { frost: random() } : {}),
    ...(often(0.2) ? { rimCrust: { kind: pick(random, ['salt', 'sugar']), seed } } : {}),
    ...(often(0.3)
      ? {
          cut: {
            style: pick(random, ['ribs', 'flutes', 'hammered', 'facets']),
            count: 8 + Math.floor(24 * random()),
            depthM: 0.0002 + 0.0008 * random(),
            bottomM: 0.2 * heightM,
            topM: 0.7 * heightM,
            seed,
          },
        }
      : {}),
    ...(often(0.15)
      ? {
          label: {
            bottomM: 0.25 * heightM,
            heightM: 0.2 * heightM,
            spanDeg: 90 + 200 * random(),
            finish: { type: 'matte', reflectanceRgb: [0.7, 0.7, 0.7] },
          },
        }
      : {}),
    ...(shape === 'bottle' || shape === 'carafe'
      ? { stopper: { kind: pick(random, ['cork', 'glass']), insertM: 0.015 + 0.01 * random() } }
      : {}),
  };
  const parsed = pieceSchema.parse(JSON.parse(JSON.stringify(raw)));
  if (parsed.kind !== 'glass') throw new Error('a glass');
  return parsed;
}

/** Bodies that may not share room: names end in these. */
const APART: readonly (readonly [string, string])[] = [
  ['glass', 'ice'],
  ['glass', 'bubbles'],
  ['bubbles', 'ice'],
  ['drops', 'ice'],
  ['drink', 'drops'],
  ['drink', 'glass'],
  ['drink', 'foam'],
  ['drink', 'drink-2'],
  ['drink-2', 'glass'],
  ['foam', 'glass'],
  ['garnish-1', 'glass'],
  ['garnish-2', 'glass'],
  ['garnish-2', 'ice'],
];

function expectApart(together: ReadonlySet<string>): void {
  for (const [a, b] of APART) expect([...together]).not.toContain(`glass:${a} + glass:${b}`);
}

// 500 of 1000 seeded pieces; anyPiece.test.ts has the other 500.
describe('500 seeded glasses of every shape, with every drink, ice, pattern and garnish', () => {
  // Five blocks, so that a failure tells roughly where.
  it.each([0, 1, 2, 3, 4])('are closed, face outward and keep apart, block %i of 100', (block) => {
    let made = 0;
    let crossings = 0;
    for (let seed = 100 * block; seed < 100 * (block + 1); seed++) {
      const piece = anyGlass(seed);
      const set = buildSet(sceneOf([piece]));
      const ids = set.volumes.map((v) => v.id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const d of set.diagnostics) expect(d.message.length).toBeGreaterThan(20);
      if (set.surfaces.length === 0) {
        expect(set.diagnostics.some((d) => d.severity === 'error')).toBe(true);
        continue;
      }
      made++;
      // Leaves, peel, labels and crust fill nothing: without them the search tree is built in half the time.
      const filled = set.surfaces.filter((s) => s.frontVolume !== undefined || s.backVolume !== undefined);
      const probe = createProbe({ ...set, surfaces: filled });
      const random = createRandom(seed + 77);
      const { heightM } = piece.profile;
      try {
        for (let i = 0; i < 4; i++) {
          const { origin, direction } = randomChord(random, [0, heightM * (0.3 + 0.5 * random()), 0], 1.3 * heightM);
          const { media, together } = probe(origin, direction);
          expectApart(together);
          crossings += media.length;
        }
        // Down the middle: through drink, ice and base.
        expectApart(probe([0.0011, 1, 0.0007], [0, -1, 0]).together);
      } catch (error) {
        throw new Error(`seed ${seed} (${piece.profile.shape}): ${error instanceof Error ? error.message : error}`);
      }
    }
    expect(made).toBeGreaterThan(75);
    expect(crossings).toBeGreaterThan(made * 8);
  });
});

describe('garnish by itself', () => {
  it.each(GARNISH_KINDS)('%s lies 0.1 mm over the table, whatever its seed and turn', (kind) => {
    for (let seed = 0; seed < 6; seed++) {
      const item = { ...defaultGarnish(kind), seed, azimuthDeg: 57 * seed };
      const piece: Piece = pieceSchema.parse({
        kind: 'garnish',
        id: 'g',
        name: 'Garnish',
        positionM: [0.1, 0.02, -0.1],
        headingDeg: 20,
        item: Object.fromEntries(
          Object.entries(item).filter(([key]) => key !== 'seed' || 'seed' in defaultGarnish(kind)),
        ),
      });
      const set = buildSet(sceneOf([piece]));
      const bounds = set.boundsByRecord.get('g');
      expect(bounds?.minM[1]).toBeCloseTo(0.0201, 9);
      expect(set.surfaces.length).toBeLessThan(250);
    }
  });
});
