import type { Vec3 } from '../core/vec3.ts';
import { absorptionPerMFromTransmittanceRgb } from './absorption.ts';
import { refractiveIndex } from './indexTables.ts';

/** Clear or coloured glass for drinking glasses and bottles. */
export interface GlassTint {
  readonly id: string;
  readonly name: string;
  readonly index: number;
  readonly absorptionPerM: Vec3;
}

/**
 * Absorption of the tints is invented: it was chosen so that 3 mm of glass leaves the given share of red, green and
 * blue inside the glass (faces not counted). The indices are measured ones.
 */
const tint = (id: string, name: string, index: number, internalTransmittance3Mm: Vec3): GlassTint => ({
  id,
  name,
  index,
  absorptionPerM: absorptionPerMFromTransmittanceRgb(internalTransmittance3Mm, 0.003),
});

const SODA_LIME = refractiveIndex('sodaLime');

export const GLASS_TINTS: readonly GlassTint[] = [
  { id: 'soda-lime', name: 'Soda-lime glass, clear', index: SODA_LIME, absorptionPerM: [2, 0.8, 1.6] },
  tint('low-iron', 'Low-iron glass', SODA_LIME, [0.9988, 0.9994, 0.999]),
  tint('lead-crystal', 'Lead crystal', 1.55, [0.998, 0.999, 0.998]),
  tint('recycled', 'Recycled glass, pale green', SODA_LIME, [0.93, 0.975, 0.955]),
  tint('smoke', 'Smoke grey glass', SODA_LIME, [0.55, 0.53, 0.52]),
  tint('bottle-green', 'Bottle green glass', SODA_LIME, [0.22, 0.6, 0.14]),
  tint('amber', 'Amber bottle glass', SODA_LIME, [0.62, 0.34, 0.06]),
  tint('cobalt', 'Cobalt blue glass', SODA_LIME, [0.08, 0.14, 0.76]),
  tint('rose', 'Rose glass', SODA_LIME, [0.9, 0.68, 0.72]),
];

/** The glass of an id; undefined for an unknown one. */
export const findGlassTint = (id: string): GlassTint | undefined => GLASS_TINTS.find((glass) => glass.id === id);
