import { relativeLuminance } from '../../../fixtures/emissionProfile.ts';
import type { EmissionProfile } from '../../../materials/surface.ts';

/** Steps of a profile's table for the graphics card. */
export const PROFILE_STEPS = 384;
/** A measured profile is taken as the mean of so many planes round the axis. */
const PLANES = 12;

const tables = new WeakMap<EmissionProfile, Float32Array>();

/**
 * Relative luminance at equal steps of sin(theta / 2) = sqrt((1 - cos) / 2) from the axis right round to behind it,
 * which is fine where narrow beams need it and needs no arc cosine to read.
 */
export function profileTable(profile: EmissionProfile): Float32Array {
  let table = tables.get(profile);
  if (!table) {
    table = Float32Array.from({ length: PROFILE_STEPS }, (_, i) => {
      const theta = 2 * Math.asin(i / (PROFILE_STEPS - 1));
      if (profile.type !== 'measured') return relativeLuminance(profile, theta);
      let sum = 0;
      for (let k = 0; k < PLANES; k++) sum += relativeLuminance(profile, theta, (2 * Math.PI * k) / PLANES);
      return sum / PLANES;
    });
    tables.set(profile, table);
  }
  return table;
}

/** Relative luminance at an angle given by its cosine, read as the graphics card reads it. */
export function profileAt(profile: EmissionProfile, cosine: number): number {
  if (profile.type === 'lambert') return 1;
  const table = profileTable(profile);
  const place = Math.sqrt(Math.max(0, (1 - cosine) / 2)) * (PROFILE_STEPS - 1);
  const i = Math.min(PROFILE_STEPS - 2, Math.floor(place));
  return table[i] + (table[i + 1] - table[i]) * (place - i);
}
