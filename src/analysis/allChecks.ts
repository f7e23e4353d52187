import type { CheckName } from './contracts.ts';

/** Every check once, in the order in which a set is gone through. */
export const ALL_CHECKS = [
  'reflections',
  'familyOfAngles',
  'thingsInFrame',
  'flare',
  'exposure',
  'ratios',
  'background',
  'spillAndShadows',
  'shadowMakers',
  'lightDirection',
  'depthOfField',
  'practical',
  'glow',
  'colourMix',
  'turntable',
  'heroTime',
  'powerAndRigging',
] as const satisfies readonly CheckName[];
