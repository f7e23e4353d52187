import type { GlassResult } from './glassBody.ts';
import { buildRoundBowled } from './roundBowled.ts';
import type { BowlSpan, StemmedProfile } from './stemmed.ts';

/** Wine glass: half a ball up to the widest part (flatter when the bowl is low), closing in from there to the rim. */
export const buildWineBody = (recordId: string, profile: StemmedProfile): GlassResult =>
  buildRoundBowled(recordId, profile, { widestAt, bluntness: 0.7 });

const widestAt = (span: BowlSpan): number => Math.min(span.widestRM, 0.55 * (span.rimYM - span.bottomYM));
