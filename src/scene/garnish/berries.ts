import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import { addScaled, type Vec3 } from '../../core/vec3.ts';
import { ballShape, ovalProfile } from '../parts/rod.ts';
import { frameAlong, turnedParts } from '../parts/solidPart.ts';
import type { Garnish } from '../records.ts';
import { dressed, type GarnishPart, moveParts } from './garnishPart.ts';
import { BLUEBERRY, BLUEBERRY_CROWN, CHERRY, CHERRY_STEM, CRANBERRY, RASPBERRY } from './looks.ts';

export type Berries = Extract<Garnish, { kind: 'berries' }>;

/** Seeded places take this many numbers each, so that one berry more does not move the others. */
export const berrySeed = (berries: Berries, index: number): number => (berries.seed + 7919 * index) >>> 0;

/** One berry about its middle, turned by chance. */
export function berryParts(berries: Berries, index: number): GarnishPart[] {
  const random = createRandom(berrySeed(berries, index));
  const radiusM = (berries.diameterM / 2) * (0.9 + 0.1 * random());
  return moveParts(uprightBerry(berries.berry, radiusM, random), chanceTurn(random, berries.berry === 'cherry'));
}

function uprightBerry(berry: Berries['berry'], radiusM: number, random: () => number): GarnishPart[] {
  switch (berry) {
    case 'blueberry':
      return blueberry(radiusM);
    case 'raspberry':
      return raspberry(radiusM, random);
    case 'cherry':
      return cherry(radiusM, random);
    case 'cranberry':
      return dressed(CRANBERRY, turnedParts('berry', ovalProfile(0.9 * radiusM, radiusM), translation([0, 0, 0])));
  }
}

function blueberry(r: number): GarnishPart[] {
  const ring = 0.36 * r;
  const thin = 0.07 * r;
  return [
    { role: 'berry', shape: ballShape(r), worldFromLocal: translation([0, 0, 0]), finish: BLUEBERRY },
    {
      role: 'crown',
      shape: { type: 'revolvedArc', centreRM: ring, centreYM: 0, radiusM: thin, angle0Rad: 0, angle1Rad: 2 * Math.PI },
      worldFromLocal: translation([0, Math.sqrt(r * r - ring * ring) - 0.2 * thin, 0]),
      finish: BLUEBERRY,
    },
    {
      role: 'crown',
      shape: { type: 'revolvedLine', r0M: ring, y0M: 0, r1M: 0, y1M: 0 },
      worldFromLocal: translation([0, r * 1.003, 0]),
      finish: BLUEBERRY_CROWN,
    },
  ];
}

const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5));

/** Small balls over an oval, by the golden angle. */
function raspberry(r: number, random: () => number): GarnishPart[] {
  const count = 42;
  const parts: GarnishPart[] = [
    { role: 'berry', shape: ballShape(0.72 * r), worldFromLocal: translation([0, 0, 0]), finish: RASPBERRY },
  ];
  for (let i = 0; i < count; i++) {
    const y = 1 - (2 * (i + 0.5)) / count;
    const phi = GOLDEN_ANGLE * i;
    const level = Math.sqrt(1 - y * y) * 0.76 * r;
    parts.push({
      role: 'berry',
      shape: ballShape(r * (0.2 + 0.035 * random())),
      worldFromLocal: translation([level * Math.cos(phi), y * 0.82 * r, level * Math.sin(phi)]),
      finish: RASPBERRY,
    });
  }
  return parts;
}

/** A ball with a bent stem: two parts of a ring. */
function cherry(r: number, random: () => number): GarnishPart[] {
  const ringM = r * (3.2 + random());
  const span = 0.75 + 0.2 * random();
  return [
    { role: 'berry', shape: ballShape(r), worldFromLocal: translation([0, 0, 0]), finish: CHERRY },
    {
      role: 'stem',
      shape: {
        type: 'revolvedArc',
        centreRM: ringM,
        centreYM: 0,
        radiusM: 0.0007,
        angle0Rad: 0,
        angle1Rad: 2 * Math.PI,
        azimuth: { startRad: 0, endRad: span },
      },
      // The ring stands upright: its axis is level, and it leaves the top of the fruit straight up.
      worldFromLocal: compose(translation([-ringM, 0.97 * r, 0]), frameAlong([0, 0, 0], [0, 0, -1], [1, 0, 0])),
      finish: CHERRY_STEM,
    },
  ];
}

function chanceTurn(random: () => number, upright: boolean): RigidTransform {
  const tilt = upright ? 0.35 * random() : 1.9 * random();
  const phi = 2 * Math.PI * random();
  const up: Vec3 = [Math.sin(tilt) * Math.cos(phi), Math.cos(tilt), Math.sin(tilt) * Math.sin(phi)];
  const heading = 2 * Math.PI * random();
  return frameAlong([0, 0, 0], up, addScaled([Math.cos(heading), 0, 0], [0, 0, 1], Math.sin(heading)));
}
