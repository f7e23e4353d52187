import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/vec3.ts';
import { CLEAR_TINTS } from '../../../src/materials/clearTints.ts';
import { DRINKS } from '../../../src/materials/drinks.ts';
import type { Finish } from '../../../src/materials/finish.ts';
import { GLASS_TINTS } from '../../../src/materials/glassTints.ts';
import { FINISH_LIBRARY } from '../../../src/materials/library/index.ts';
import { type Pattern, patternSchema } from '../../../src/materials/pattern.ts';
import { PatternKind } from '../../../src/materials/patterns/patternMixAt.ts';
import { foamMedium } from '../../../src/scene/drink/foam.ts';
import { defaultFoam } from '../../../src/scene/glassDefaults.ts';
import { CLEAR, mediumVolume, setOf, sphereShape, surfaceOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';

/*
 * White furnace, for everything that the libraries hold: in a uniform surround of radiance 1 nothing shows more than 1, and
 * whatever is made white shows 1 and cannot be seen (energy conservation; a standard check of renderers).
 */
const SURROUND = { surroundRgb: [1, 1, 1] as const, maxDepth: 300 };
const WHITE: Vec3 = [1, 1, 1];
/** On the axis and near the rim of the ball. */
const DIRECTIONS: readonly Vec3[] = [
  [0.004, -0.003, -1],
  [0.041, 0.012, -1],
];
const EYE: Vec3 = [0, 0, 1];
const RADIUS_M = 0.05;

const ballOf = (finish: Finish) => [surfaceOf('ball', sphereShape(RADIUS_M), finish)];

/** The same finish with nothing lost in its colours. */
function whitened(finish: Finish): Finish {
  const white: [number, number, number] = [1, 1, 1];
  switch (finish.type) {
    case 'matte':
    case 'metal':
    case 'gloss':
      return {
        ...finish,
        reflectanceRgb: white,
        ...(finish.pattern ? { pattern: { ...finish.pattern, secondRgb: white } } : {}),
      };
    case 'mirror':
      return { ...finish, reflectanceRgb: white };
    case 'translucent': {
      const [r] = finish.reflectanceRgb;
      const share = r / (r + finish.transmittanceRgb[0]);
      return { ...finish, reflectanceRgb: [share, share, share], transmittanceRgb: [1 - share, 1 - share, 1 - share] };
    }
    case 'clear':
    case 'black':
      return finish;
  }
}

function expectNoGain(finish: Finish): void {
  for (const direction of DIRECTIONS) {
    const { rgb, dropped } = traceRays(setOf(ballOf(finish)), EYE, direction, 800, SURROUND);
    expect(dropped).toBe(0);
    for (const share of rgb) {
      expect(share).toBeGreaterThanOrEqual(0);
      // One in two thousand for the grain of 800 paths.
      expect(share).toBeLessThan(1.0005);
    }
  }
}

/** Rough metal loses what bounces between its facets: up to a third of it at the roughest. */
const isRoughMetal = (finish: Finish): boolean => finish.type === 'metal' && finish.roughness > 0;

function expectNoLoss(finish: Finish): void {
  const white = whitened(finish);
  for (const direction of DIRECTIONS) {
    const { rgb, error } = traceRays(setOf(ballOf(white)), EYE, direction, 3000, SURROUND);
    const slack = Math.max(0.002, 4 * error);
    for (const share of rgb) {
      expect(share).toBeLessThan(1 + slack);
      // Single-bounce albedo 0.91581 at alpha 0.25 and 0.85555 toward grazing (quadrature of Walter et al. 2007, eqs 33-34).
      if (!isRoughMetal(finish)) expect(share).toBeGreaterThan(1 - slack);
      else expect(share).toBeGreaterThan(0.8);
    }
  }
}

describe('white furnace over the library of finishes', () => {
  it.each(FINISH_LIBRARY.map(({ id, finish }) => [id, finish] as const))(
    '%s shows no more than it is lit by, and all of it when its colours are white',
    (_, finish) => {
      expectNoGain(finish);
      expectNoLoss(finish);
    },
  );
});

const PATTERN_TYPES = Object.keys(PatternKind).filter((type) => type !== 'none');
const patternOf = (type: string): Pattern => patternSchema.parse({ type, secondRgb: [0.9, 0.2, 0.05], scaleM: 0.004 });
const BASE: [number, number, number] = [0.7, 0.5, 0.3];

describe('white furnace over every type of pattern', () => {
  it('knows eleven types', () => expect(PATTERN_TYPES.length).toBeGreaterThanOrEqual(11));

  it.each(PATTERN_TYPES)('%s on matte, under a coat and on metal neither adds light nor loses it', (type) => {
    const pattern = patternOf(type);
    for (const finish of [
      { type: 'matte', reflectanceRgb: BASE, pattern },
      { type: 'gloss', reflectanceRgb: BASE, coatIndex: 1.5, roughness: 0.1, pattern },
      { type: 'metal', reflectanceRgb: BASE, roughness: 0, pattern },
    ] satisfies Finish[]) {
      expectNoGain(finish);
      expectNoLoss(finish);
    }
  });

  it('a white coated board with scratches of wear 0.8 loses nothing', () =>
    expectNoLoss({ type: 'gloss', reflectanceRgb: BASE, coatIndex: 1.49, roughness: 0, scratches: 0.8 }));

  it('gloss black with dust over a tenth of it shows no more than it is lit by', () =>
    expectNoGain({ type: 'gloss', reflectanceRgb: [0.01, 0.01, 0.01], coatIndex: 1.49, roughness: 0, dust: 0.1 }));
});

/** A ball of a medium a few mean free paths across, that absorbs nothing. */
function expectInvisibleMedium(index: number, scatteringPerM: Vec3): void {
  const densest = Math.max(...scatteringPerM);
  const radiusM = densest > 0 ? Math.min(RADIUS_M, 1.5 / densest) : RADIUS_M;
  const ball = surfaceOf('ball', sphereShape(radiusM), CLEAR, { backVolume: 'medium' });
  const volume = {
    ...mediumVolume('medium', index),
    medium: { index, absorptionPerM: [0, 0, 0] as Vec3, scatteringPerM },
  };
  const { rgb, error, dropped } = traceRays(
    setOf([ball], [volume]),
    [0, 0, 20 * radiusM],
    [0.02, -0.01, -1],
    4000,
    SURROUND,
  );
  expect(dropped).toBe(0);
  for (const share of rgb) expect(Math.abs(share - 1)).toBeLessThan(Math.max(0.004, 5 * error));
}

describe('white furnace over drinks, foam, glass and clear solids', () => {
  it.each(DRINKS.map((drink) => [drink.id, drink] as const))('%s, absorbing nothing, cannot be seen', (_, drink) => {
    expectInvisibleMedium(drink.index, drink.reducedScatteringPerM);
  });

  it('a head of foam, absorbing nothing, cannot be seen', () => {
    const { index, scatteringPerM } = foamMedium({ ...defaultFoam(), tintRgb: [1, 1, 1] });
    expectInvisibleMedium(index, scatteringPerM ?? WHITE);
  });

  it.each([...GLASS_TINTS, ...CLEAR_TINTS].map((tint) => [tint.id, tint] as const))(
    '%s as a ball of 20 mm shows no more than it is lit by, and less where it absorbs',
    (_, { index, absorptionPerM }) => {
      const ball = surfaceOf('ball', sphereShape(0.01), CLEAR, { backVolume: 'tint' });
      const set = setOf([ball], [mediumVolume('tint', index, absorptionPerM)]);
      const { rgb } = traceRays(set, [0, 0, 0.3], [0.003, 0.002, -1], 1500, SURROUND);
      rgb.forEach((share, c) => {
        expect(share).toBeLessThan(1);
        // Down the middle: the outer face's share, and what is left after 20 mm within.
        const f = ((index - 1) / (index + 1)) ** 2;
        const left = Math.exp(-absorptionPerM[c] * 0.02);
        // Bounces to and fro inside, summed: f + (1 - f)^2 T / (1 - f T) (Stokes, 1862, for a plate; a ball's middle ray).
        const expected = f + ((1 - f) ** 2 * left) / (1 - f * left);
        expect(Math.abs(share - expected)).toBeLessThan(0.02);
      });
    },
  );
});
