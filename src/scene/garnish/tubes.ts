import { IDENTITY } from '../../core/rigid.ts';
import type { Finish } from '../../materials/finish.ts';
import { rodProfile, tubeParts } from '../parts/rod.ts';
import { turnedParts } from '../parts/solidPart.ts';
import { arcAbout, lineBetween, profilePoint } from '../profile/index.ts';
import type { Garnish } from '../records.ts';
import { dressed, type GarnishPart } from './garnishPart.ts';
import { BAMBOO, CLEAR, PAPER, STEEL, WOOD } from './looks.ts';

export type Straw = Extract<Garnish, { kind: 'straw' }>;
export type Stirrer = Extract<Garnish, { kind: 'stirrer' }>;

/** Thickness of a straw's wall by what it is made of. */
const WALL_M: Readonly<Record<Straw['material'], number>> = {
  paper: 0.0004,
  metal: 0.0004,
  glass: 0.0009,
  bamboo: 0.001,
};

/** A straw along local y from height 0: outside, inside and both rims. */
export function strawParts(straw: Straw): GarnishPart[] {
  const outerM = straw.diameterM / 2;
  const innerM = Math.max(0.3 * outerM, outerM - WALL_M[straw.material]);
  const parts = tubeParts('straw', [0, 0, 0], [0, straw.lengthM, 0], { outerM, innerM });
  if (straw.material === 'glass') return dressed(CLEAR, parts).map((part) => ({ ...part, glass: true }));
  return dressed(strawFinish(straw), parts);
}

function strawFinish({ material, colourRgb }: Straw): Finish {
  switch (material) {
    case 'metal':
      return STEEL;
    case 'bamboo':
      return BAMBOO;
    default:
      return { type: 'matte', reflectanceRgb: colourRgb ?? PAPER };
  }
}

/** Radius of the balls at the ends of a stirrer. */
export const stirrerBallM = (stirrer: Stirrer): number => stirrer.diameterM * 0.85;

/** A stirrer along local y from height 0: a rod with a ball at each end, turned as one; of wood, a plain rod. */
export function stirrerParts(stirrer: Stirrer): GarnishPart[] {
  const radiusM = stirrer.diameterM / 2;
  const { lengthM } = stirrer;
  if (stirrer.material === 'wood')
    return dressed(WOOD, turnedParts('stirrer', rodProfile(radiusM, lengthM, 0.0008), IDENTITY));
  const ballM = stirrerBallM(stirrer);
  const neck = Math.acos(radiusM / ballM);
  const low = arcAbout(profilePoint(0, ballM), ballM, -Math.PI / 2, neck);
  const high = arcAbout(profilePoint(0, lengthM - ballM), ballM, -neck, Math.PI / 2);
  const parts = turnedParts('stirrer', [low, lineBetween(low.to, high.from), high], IDENTITY);
  return stirrer.material === 'glass'
    ? dressed(CLEAR, parts).map((part) => ({ ...part, glass: true }))
    : dressed(STEEL, parts);
}
