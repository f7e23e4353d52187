import type { GlassResult } from './glassBody.ts';
import { buildRoundBowled } from './roundBowled.ts';
import type { StemmedProfile } from './stemmed.ts';

/** Coupe: a wide shallow bowl, flat in the middle and turning up to an upright rim. */
export const buildCoupeBody = (recordId: string, profile: StemmedProfile): GlassResult =>
  buildRoundBowled(recordId, profile, { widestAt: (span) => 0.7 * (span.rimYM - span.bottomYM), bluntness: 0.6 });
