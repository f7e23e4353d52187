import { fail } from '../../core/result.ts';
import { cannotMake, inMm } from '../problems.ts';
import type { ProfilePiece } from '../profile/index.ts';
import { closingArc, ovalBowl } from './bowl.ts';
import type { GlassResult } from './glassBody.ts';
import { type BowlSpan, buildStemmedBody, type StemmedProfile } from './stemmed.ts';

/** What tells one family of round bowls from another. */
export interface BowlManner {
  /** Height of the widest part over the height of the bowl when the bowl closes in again above it. */
  readonly widestAt: (span: BowlSpan) => number;
  /** See `ovalBowl`. */
  readonly bluntness: number;
}

/** A stemmed glass whose bowl is an oval up to its widest part, and closes in from there to the rim if that is narrower. */
export function buildRoundBowled(recordId: string, profile: StemmedProfile, manner: BowlManner): GlassResult {
  const closesIn = profile.bowlDiameterM !== undefined && profile.bowlDiameterM > profile.rimDiameterM;
  const heightM = profile.bowlHeightM - profile.baseThicknessM;
  if (closesIn && profile.bowlDiameterM !== undefined) {
    const inM = (profile.bowlDiameterM - profile.rimDiameterM) / 2;
    if (inM > heightM * 0.25) {
      return fail([
        cannotMake(
          recordId,
          'rim-too-narrow',
          'profile.rimDiameterM',
          profile.rimDiameterM,
          `profile.rimDiameterM is too narrow for so wide and low a bowl: use ${inMm(profile.bowlDiameterM - heightM * 0.5)} or more, or a higher bowl.`,
        ),
      ]);
    }
  }
  const curve = (span: BowlSpan): ProfilePiece[] => {
    if (!closesIn) return ovalBowl(span.bottomYM, span.rimRM, span.rimYM, manner.bluntness);
    const widestYM = span.bottomYM + manner.widestAt(span);
    return [
      ...ovalBowl(span.bottomYM, span.widestRM, widestYM, manner.bluntness),
      closingArc(span.widestRM, widestYM, span.rimRM, span.rimYM),
    ];
  };
  return buildStemmedBody(recordId, profile, curve);
}
