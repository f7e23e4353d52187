import type { CheckInput, WantedEdge } from '../contracts.ts';
import { pieceOf } from '../words.ts';
import type { CastEdge } from './castEdges.ts';

/** Set pieces that are there for the shadow they throw. */
const SHADOW_PIECES: ReadonlySet<string> = new Set([
  'reedScreen',
  'slatScreen',
  'windowCutter',
  'dappleCutter',
  'branch',
  'plant',
]);

/**
 * What the edge of one maker should be: what is stated for that maker, else what the frame wants of all that shapes light:
 * flags, cards and frames, cutters, screens and leaves, and the gobo, doors and snoot of a light. Of a plinth, a book or the
 * body of a lantern nothing is wanted unless it is stated.
 *
 * @returns `penumbraM` parts crisp from soft
 */
export function wantedEdgeOf(
  { limits, scene }: Pick<CheckInput, 'limits' | 'scene'>,
  { makerId, part }: Pick<CastEdge, 'makerId' | 'part'>,
): Required<WantedEdge> {
  const stated = limits.edges.find((edge) => edge.makerId === makerId);
  if (stated) return { makerId, wanted: stated.wanted, penumbraM: stated.penumbraM ?? limits.edgePenumbraM };
  const shapes =
    part !== '' ||
    scene.grip.some(({ id }) => id === makerId) ||
    SHADOW_PIECES.has(pieceOf(scene, makerId)?.kind ?? '');
  return { makerId, wanted: shapes ? limits.edgeWanted : 'any', penumbraM: limits.edgePenumbraM };
}
