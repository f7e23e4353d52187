import type { GlassProfile } from '../records.ts';
import { buildBottleBody } from './bottle.ts';
import { buildConicalStemmedBody } from './conicalStemmed.ts';
import { buildCoupeBody } from './coupe.ts';
import { buildFluteBody } from './flute.ts';
import type { GlassResult } from './glassBody.ts';
import { buildTumblerBody } from './tumbler.ts';
import { buildWineBody } from './wine.ts';

/** The closed profile of any vessel, or what is wrong with its sizes. */
export function buildGlassBody(recordId: string, profile: GlassProfile): GlassResult {
  switch (profile.shape) {
    case 'highball':
    case 'tumbler':
      return buildTumblerBody(recordId, profile);
    case 'coupe':
      return buildCoupeBody(recordId, profile);
    case 'conicalStemmed':
      return buildConicalStemmedBody(recordId, profile);
    case 'flute':
      return buildFluteBody(recordId, profile);
    case 'wine':
      return buildWineBody(recordId, profile);
    case 'bottle':
      return buildBottleBody(recordId, profile);
  }
}
