import { radFromDeg } from '../../core/units.ts';
import { dot } from '../../core/vec3.ts';
import type { CheckLimits } from '../contracts.ts';
import type { HeroShadow } from './castShadow.ts';

/**
 * Distinct shadows: those deep enough to be seen, each with the ones that fall so near it that they read as one. Deepest
 * group first, deepest of a group first.
 */
export function groupShadows(
  shadows: readonly HeroShadow[],
  { shadowSeenStops, shadowMergeDeg }: Pick<CheckLimits, 'shadowSeenStops' | 'shadowMergeDeg'>,
): HeroShadow[][] {
  const cosMerge = Math.cos(radFromDeg(shadowMergeDeg));
  const groups: HeroShadow[][] = [];
  for (const shadow of [...shadows].sort((a, b) => b.depthStops - a.depthStops)) {
    if (shadow.depthStops < shadowSeenStops) continue;
    const near = groups.find(([first]) => dot(first.direction, shadow.direction) >= cosMerge);
    if (near) near.push(shadow);
    else groups.push([shadow]);
  }
  return groups;
}
