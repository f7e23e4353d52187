import type { ReflectanceRgb } from '../reflectance.ts';
import { invented, type LibraryFinish } from './libraryFinish.ts';

const paper = (id: string, name: string, reflectanceRgb: ReflectanceRgb): LibraryFinish =>
  invented(`paper-${id}`, name, 'paper', { type: 'matte', reflectanceRgb });

/** Seamless paper for sweeps and backdrops, light to dark. The names are our own. */
export const PAPERS: readonly LibraryFinish[] = [
  paper('chalk', 'Chalk paper', [0.84, 0.835, 0.815]),
  paper('bone', 'Bone paper', [0.76, 0.7, 0.6]),
  paper('oat', 'Oat paper', [0.65, 0.57, 0.44]),
  paper('blush', 'Blush paper', [0.72, 0.47, 0.43]),
  paper('fog', 'Fog paper', [0.5, 0.51, 0.52]),
  paper('sand', 'Sand paper', [0.53, 0.41, 0.27]),
  paper('mustard', 'Mustard paper', [0.55, 0.34, 0.05]),
  paper('warm-grey', 'Warm grey paper', [0.3, 0.275, 0.25]),
  paper('sage', 'Sage paper', [0.24, 0.3, 0.2]),
  paper('clay', 'Clay paper', [0.41, 0.16, 0.09]),
  paper('river', 'River blue paper', [0.06, 0.16, 0.2]),
  paper('storm', 'Storm grey paper', [0.105, 0.115, 0.13]),
  paper('moss', 'Moss paper', [0.075, 0.1, 0.03]),
  paper('plum', 'Plum paper', [0.09, 0.025, 0.05]),
  paper('midnight', 'Midnight blue paper', [0.012, 0.018, 0.05]),
  paper('soot', 'Soot black paper', [0.032, 0.031, 0.03]),
];
