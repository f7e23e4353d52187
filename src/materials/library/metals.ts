import { invented, type LibraryFinish, tabled } from './libraryFinish.ts';

const OPTICAL_CONSTANTS =
  'reflectance at normal incidence from published optical constants, about 630, 550 and 460 nm (from memory)';

/** Metals and mirrors. */
export const METALS: readonly LibraryFinish[] = [
  invented('mirror-silvered', 'Mirror', 'metal', { type: 'mirror', reflectanceRgb: [0.91, 0.92, 0.9] }),
  invented('mirror-bronze', 'Bronze mirror', 'metal', { type: 'mirror', reflectanceRgb: [0.56, 0.42, 0.28] }),
  tabled(
    'aluminium-polished',
    'Polished aluminium',
    'metal',
    { type: 'metal', reflectanceRgb: [0.912, 0.921, 0.925], roughness: 0.06 },
    OPTICAL_CONSTANTS,
  ),
  invented('steel-brushed', 'Brushed steel', 'metal', {
    type: 'metal',
    reflectanceRgb: [0.64, 0.61, 0.57],
    roughness: 0.26,
    pattern: { type: 'brushed', scaleM: 0.0004, seed: 1, secondRgb: [0.5, 0.475, 0.445], along: 'x', unevenness: 0.4 },
  }),
  invented('steel-polished', 'Polished steel', 'metal', {
    type: 'metal',
    reflectanceRgb: [0.64, 0.61, 0.57],
    roughness: 0.04,
  }),
  invented('brass', 'Brass, satin', 'metal', { type: 'metal', reflectanceRgb: [0.88, 0.72, 0.4], roughness: 0.16 }),
  invented('brass-aged', 'Aged brass', 'metal', {
    type: 'metal',
    reflectanceRgb: [0.72, 0.54, 0.27],
    roughness: 0.3,
    pattern: { type: 'plaster', scaleM: 0.03, seed: 6, secondRgb: [0.36, 0.25, 0.13], contrast: 0.8 },
  }),
  tabled(
    'copper',
    'Copper, satin',
    'metal',
    { type: 'metal', reflectanceRgb: [0.95, 0.64, 0.54], roughness: 0.16 },
    OPTICAL_CONSTANTS,
  ),
];
