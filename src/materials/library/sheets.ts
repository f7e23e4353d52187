import type { Pattern } from '../pattern.ts';
import type { ReflectanceRgb } from '../reflectance.ts';
import { invented, type LibraryFinish, tabled } from './libraryFinish.ts';

const ACRYLIC_INDEX = 1.49;
const gloss = (
  reflectanceRgb: ReflectanceRgb,
  more: { coatIndex?: number; roughness?: number; pattern?: Pattern } = {},
) => ({ type: 'gloss' as const, reflectanceRgb, coatIndex: ACRYLIC_INDEX, roughness: 0, ...more });
const matte = (reflectanceRgb: ReflectanceRgb, pattern?: Pattern) => ({
  type: 'matte' as const,
  reflectanceRgb,
  ...(pattern ? { pattern } : {}),
});

/** Acrylic, board, card, tile and translucent sheets. */
export const SHEETS: readonly LibraryFinish[] = [
  invented('acrylic-black', 'Gloss acrylic, black', 'acrylic', gloss([0.006, 0.006, 0.006])),
  invented('acrylic-white', 'Gloss acrylic, white', 'acrylic', gloss([0.9, 0.9, 0.885])),
  invented('acrylic-red', 'Gloss acrylic, red', 'acrylic', gloss([0.52, 0.012, 0.014])),
  invented('acrylic-smoke', 'Gloss acrylic, smoke on black', 'acrylic', gloss([0.03, 0.028, 0.027])),
  invented('acrylic-satin-black', 'Satin acrylic, black', 'acrylic', gloss([0.01, 0.01, 0.01], { roughness: 0.22 })),
  invented('acrylic-frosted', 'Frosted acrylic, translucent', 'diffuser', {
    type: 'translucent',
    reflectanceRgb: [0.28, 0.28, 0.28],
    transmittanceRgb: [0.62, 0.62, 0.61],
  }),
  invented('acrylic-opal', 'Opal acrylic, translucent', 'diffuser', {
    type: 'translucent',
    reflectanceRgb: [0.55, 0.55, 0.54],
    transmittanceRgb: [0.38, 0.38, 0.37],
  }),
  invented('board-white', 'White board', 'board', matte([0.86, 0.86, 0.84])),
  invented('board-grey', 'Grey board, 18 %', 'board', matte([0.18, 0.18, 0.18])),
  invented('board-black', 'Black card', 'board', matte([0.045, 0.044, 0.043])),
  invented('flock-black', 'Black flock', 'board', matte([0.006, 0.006, 0.006])),
  invented(
    'board-painted-green',
    'Painted board, grey green',
    'board',
    gloss([0.3, 0.36, 0.28], {
      roughness: 0.4,
      pattern: { type: 'brushed', scaleM: 0.0015, seed: 3, secondRgb: [0.24, 0.3, 0.22], along: 'x', unevenness: 0.6 },
    }),
  ),
  invented(
    'board-painted-blue',
    'Painted board, worn blue',
    'board',
    matte([0.09, 0.15, 0.22], {
      type: 'plaster',
      scaleM: 0.06,
      seed: 4,
      secondRgb: [0.19, 0.25, 0.31],
      contrast: 0.7,
    }),
  ),
  tabled('plaster-white', 'White plaster', 'board', {
    type: 'matte',
    reflectanceRgb: [0.84, 0.83, 0.8],
    pattern: { type: 'plaster', scaleM: 0.15, seed: 1, secondRgb: [0.79, 0.775, 0.74], contrast: 0.5 },
  }),
  invented('plaster-limewash', 'Limewash, warm', 'board', {
    type: 'matte',
    reflectanceRgb: [0.6, 0.49, 0.39],
    pattern: { type: 'plaster', scaleM: 0.22, seed: 2, secondRgb: [0.43, 0.34, 0.26], contrast: 0.8 },
  }),
  tabled(
    'tile-white',
    'White glazed tile',
    'tile',
    gloss([0.87, 0.87, 0.85], {
      coatIndex: 1.52,
      roughness: 0.02,
      pattern: {
        type: 'tiles',
        scaleM: 0.1,
        seed: 1,
        secondRgb: [0.6, 0.58, 0.54],
        plane: 'level',
        jointM: 0.003,
        lengthOverHeight: 1,
        bond: 0,
        variation: 0.1,
      },
    }),
  ),
  invented(
    'tile-river-green',
    'Green glazed tile, half bond',
    'tile',
    gloss([0.05, 0.22, 0.16], {
      coatIndex: 1.52,
      roughness: 0.03,
      pattern: {
        type: 'tiles',
        scaleM: 0.065,
        seed: 2,
        secondRgb: [0.5, 0.48, 0.43],
        plane: 'upright',
        jointM: 0.002,
        lengthOverHeight: 3,
        bond: 0.5,
        variation: 0.08,
      },
    }),
  ),
];
