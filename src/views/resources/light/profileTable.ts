import { relativeLuminance } from '../../../fixtures/emissionProfile.ts';
import type { EmissionProfile } from '../../../materials/surface.ts';

/** Steps of a profile's table for the graphics card. */
export const PROFILE_STEPS = 256;

const tables = new WeakMap<EmissionProfile, Float32Array>();

/**
 * Relative luminance at equal steps of sqrt(1 - cos), which is fine where narrow beams need it and needs no arc cosine
 * to read.
 */
export function profileTable(profile: EmissionProfile): Float32Array {
  let table = tables.get(profile);
  if (!table) {
    table = Float32Array.from({ length: PROFILE_STEPS }, (_, i) => {
      const x = i / (PROFILE_STEPS - 1);
      return relativeLuminance(profile, Math.acos(1 - x * x));
    });
    tables.set(profile, table);
  }
  return table;
}

/** Relative luminance at an angle given by its cosine, read as the graphics card reads it. */
export function profileAt(profile: EmissionProfile, cosine: number): number {
  if (profile.type === 'lambert') return 1;
  const table = profileTable(profile);
  const place = Math.sqrt(Math.max(0, 1 - cosine)) * (PROFILE_STEPS - 1);
  const i = Math.min(PROFILE_STEPS - 2, Math.floor(place));
  return table[i] + (table[i + 1] - table[i]) * (place - i);
}
