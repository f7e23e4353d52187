import type { GlassResult } from './glassBody.ts';
import { buildRoundBowled } from './roundBowled.ts';
import type { StemmedProfile } from './stemmed.ts';

/** Flute: a tall bowl with a narrow round bottom and long, nearly straight sides, widest a little over the middle. */
export const buildFluteBody = (recordId: string, profile: StemmedProfile): GlassResult =>
  buildRoundBowled(recordId, profile, { widestAt: (span) => 0.6 * (span.rimYM - span.bottomYM), bluntness: 0.4 });
