import type { GlassProfile } from '../records.ts';
import { buildBottleBody } from './bottle.ts';
import { buildCarafeBody } from './carafe.ts';
import { buildConicalStemmedBody } from './conicalStemmed.ts';
import { buildCopaBody } from './copa.ts';
import { buildCoupeBody } from './coupe.ts';
import { buildFluteBody } from './flute.ts';
import type { GlassResult } from './glassBody.ts';
import { buildOwnBody } from './ownProfile.ts';
import { buildTumblerBody } from './tumbler.ts';
import { buildWineBody } from './wine.ts';

/** The closed profile of any vessel, or what is wrong with its sizes. */
export function buildGlassBody(recordId: string, profile: GlassProfile): GlassResult {
  switch (profile.shape) {
    case 'highball':
    case 'tumbler':
    case 'doubleTumbler':
    case 'shot':
    case 'mug':
      return buildTumblerBody(recordId, profile);
    case 'coupe':
      return buildCoupeBody(recordId, profile);
    case 'conicalStemmed':
      return buildConicalStemmedBody(recordId, profile);
    case 'flute':
      return buildFluteBody(recordId, profile);
    case 'wine':
      return buildWineBody(recordId, profile);
    case 'copa':
      return buildCopaBody(recordId, profile);
    case 'bottle':
      return buildBottleBody(recordId, profile);
    case 'carafe':
      return buildCarafeBody(recordId, profile);
    case 'ownProfile':
      return buildOwnBody(recordId, profile);
  }
}
