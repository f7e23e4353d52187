import { translation } from '../../core/rigid.ts';
import { ballShape, ovalProfile } from '../parts/rod.ts';
import { turnedParts } from '../parts/solidPart.ts';
import { lineBetween, type ProfilePiece, profilePoint } from '../profile/index.ts';
import type { Garnish } from '../records.ts';
import { dressed, type GarnishPart } from './garnishPart.ts';
import { OLIVE, PIMENTO, STEEL, WOOD } from './looks.ts';

export type Olives = Extract<Garnish, { kind: 'olives' }>;

export const PICK_RADIUS_M = 0.0009;
/** Width of an olive over its length. */
export const OLIVE_WIDTH_SHARE = 0.82;
export const PICK_HEAD_M = 0.0028;

/**
 * Olives on a pick along local y, from its point at height 0. The first olive's middle stands at `firstM`; the next ones
 * touch it.
 */
export function olivesParts(olives: Olives, firstM: number): GarnishPart[] {
  const { count, lengthM, pickLengthM } = olives;
  const pick = olives.pick === 'metal' ? STEEL : WOOD;
  const parts: GarnishPart[] = dressed(pick, [
    ...turnedParts('pick', pickProfile(pickLengthM), translation([0, 0, 0])),
    { role: 'pick head', shape: ballShape(PICK_HEAD_M), worldFromLocal: translation([0, pickLengthM, 0]) },
  ]);
  for (let i = 0; i < count; i++) {
    const placement = translation([0, firstM + i * (lengthM + 0.0003), 0]);
    const half = lengthM / 2;
    parts.push(...dressed(OLIVE, turnedParts('olive', ovalProfile(half * OLIVE_WIDTH_SHARE, half), placement)), {
      role: 'pimento',
      shape: ballShape(0.17 * lengthM),
      worldFromLocal: translation([0, firstM + i * (lengthM + 0.0003) + half * 0.7, 0]),
      finish: PIMENTO,
    });
  }
  return parts;
}

/** A pointed bar; its blunt end is hidden in the head. */
function pickProfile(lengthM: number): ProfilePiece[] {
  const low = profilePoint(PICK_RADIUS_M, Math.min(0.006, lengthM / 4));
  const high = profilePoint(PICK_RADIUS_M, lengthM);
  return [lineBetween(profilePoint(0, 0), low), lineBetween(low, high), lineBetween(high, profilePoint(0, lengthM))];
}

/** Length of the row of olives. */
export const rowLengthM = ({ count, lengthM }: Olives): number => count * lengthM + (count - 1) * 0.0003;
