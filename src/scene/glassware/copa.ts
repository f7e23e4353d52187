import type { GlassResult } from './glassBody.ts';
import { buildRoundBowled } from './roundBowled.ts';
import type { BowlSpan, StemmedProfile } from './stemmed.ts';

/** Copa: a balloon, round as a ball up to its widest part near the middle, closing in from there to a wide mouth. */
export const buildCopaBody = (recordId: string, profile: StemmedProfile): GlassResult =>
  buildRoundBowled(recordId, profile, { widestAt, bluntness: 0.75 });

const widestAt = (span: BowlSpan): number => Math.min(0.95 * span.widestRM, 0.5 * (span.rimYM - span.bottomYM));
