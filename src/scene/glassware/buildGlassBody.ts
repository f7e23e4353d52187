import { fail } from '../../core/result.ts';
import { cannotMake } from '../problems.ts';
import type { GlassProfile } from '../records.ts';
import type { GlassResult } from './glassBody.ts';
import { buildTumblerBody } from './tumbler.ts';

/** The closed profile of any vessel, or what is wrong with its sizes. */
export function buildGlassBody(recordId: string, profile: GlassProfile): GlassResult {
  switch (profile.shape) {
    case 'highball':
    case 'tumbler':
      return buildTumblerBody(recordId, profile);
    default:
      return fail([
        cannotMake(
          recordId,
          'shape-not-made',
          'profile.shape',
          profile.shape,
          'profile.shape has no model: use highball or tumbler.',
        ),
      ]);
  }
}
