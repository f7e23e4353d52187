import { addScaled, scale, type Vec3 } from '../../core/vec3.ts';
import type { FrameStudy, HeroPlace } from '../study.ts';

/** Started this far out, in widths of what the hero stands in. */
const START_TIMES = 2;
const MOST_HITS = 24;

/**
 * How far the hero reaches from its axis in one level direction at one height, metres: where a line from outside toward the axis
 * first meets it. A box reaches further to its corners than to its faces. 0 where the line does not meet it.
 *
 * @param onAxisM on the axis of the hero, at the height that is asked for
 * @param direction unit
 */
export function reachAlongM(
  { input }: FrameStudy,
  { recordId, bounds }: HeroPlace,
  onAxisM: Vec3,
  direction: Vec3,
): number {
  const { minM, maxM } = bounds;
  const outM = START_TIMES * Math.hypot(maxM[0] - minM[0], maxM[2] - minM[2]);
  const hit = input.query
    .hitsAlong(addScaled(onAxisM, direction, outM), scale(direction, -1), outM, MOST_HITS)
    .find(({ surfaceIndex }) => input.set.surfaces[surfaceIndex].recordId === recordId);
  return hit ? outM - hit.tM : 0;
}
