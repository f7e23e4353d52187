import type { Vec3 } from '../core/vec3.ts';
import { absorptionPerMFromTransmittanceRgb } from './absorption.ts';

/** Clear or coloured plastic and glass for solid sheets and blocks. */
export interface ClearTint {
  readonly id: string;
  readonly name: string;
  readonly index: number;
  readonly absorptionPerM: Vec3;
}

const ACRYLIC_INDEX = 1.49;

/** Invented: the share of red, green and blue that 5 mm of it lets through inside, faces not counted. */
const acrylic = (id: string, name: string, internalTransmittance5Mm: Vec3): ClearTint => ({
  id,
  name,
  index: ACRYLIC_INDEX,
  absorptionPerM: absorptionPerMFromTransmittanceRgb(internalTransmittance5Mm, 0.005),
});

/** Tints of clear solids. Absorption is invented, by eye; the index is that of acrylic, or of soda-lime glass. */
export const CLEAR_TINTS: readonly ClearTint[] = [
  { id: 'clear-acrylic', name: 'Clear acrylic', index: ACRYLIC_INDEX, absorptionPerM: [0.6, 0.5, 0.7] },
  acrylic('smoke-acrylic', 'Smoke acrylic', [0.3, 0.285, 0.28]),
  acrylic('amber-acrylic', 'Amber acrylic', [0.86, 0.48, 0.07]),
  acrylic('blue-acrylic', 'Blue acrylic', [0.12, 0.42, 0.8]),
  acrylic('green-acrylic', 'Green acrylic', [0.22, 0.72, 0.4]),
  acrylic('rose-acrylic', 'Rose acrylic', [0.88, 0.42, 0.5]),
  { id: 'float-glass', name: 'Float glass', index: 1.52, absorptionPerM: [14, 4, 8] },
];

/** The tint of an id; undefined for an unknown one. */
export const findClearTint = (id: string): ClearTint | undefined => CLEAR_TINTS.find((tint) => tint.id === id);
