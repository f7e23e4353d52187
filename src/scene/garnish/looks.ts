import type { Finish } from '../../materials/finish.ts';
import type { Fruit } from '../records.ts';

/** Colours of fruit, leaf and small wares. All invented, by eye from the real thing; linear Rec. 709. */
type Rgb = [number, number, number];

const gloss = (reflectanceRgb: Rgb, roughness: number, coatIndex = 1.45): Finish => ({
  type: 'gloss',
  reflectanceRgb,
  coatIndex,
  roughness,
});
const thin = (reflectanceRgb: Rgb, transmittanceRgb: Rgb): Finish => ({
  type: 'translucent',
  reflectanceRgb,
  transmittanceRgb,
});

export interface CitrusLook {
  readonly segments: number;
  readonly peel: Finish;
  readonly pith: Finish;
  /** Flesh and the skins between its segments: thin sheets that glow when lit from behind. */
  readonly flesh: Finish;
  readonly membrane: Finish;
}

const PITH = thin([0.72, 0.66, 0.48], [0.16, 0.13, 0.07]);

export const CITRUS: Readonly<Record<Fruit, CitrusLook>> = {
  lemon: {
    segments: 9,
    peel: gloss([0.72, 0.47, 0.03], 0.28),
    pith: PITH,
    flesh: thin([0.42, 0.3, 0.055], [0.5, 0.37, 0.06]),
    membrane: thin([0.64, 0.56, 0.3], [0.28, 0.24, 0.11]),
  },
  lime: {
    segments: 10,
    peel: gloss([0.09, 0.22, 0.02], 0.25),
    pith: thin([0.56, 0.62, 0.32], [0.18, 0.2, 0.08]),
    flesh: thin([0.3, 0.35, 0.12], [0.34, 0.41, 0.13]),
    membrane: thin([0.5, 0.58, 0.28], [0.28, 0.34, 0.14]),
  },
  orange: {
    segments: 10,
    peel: gloss([0.78, 0.25, 0.012], 0.3),
    pith: PITH,
    flesh: thin([0.48, 0.16, 0.01], [0.48, 0.16, 0.008]),
    membrane: thin([0.66, 0.44, 0.16], [0.26, 0.15, 0.04]),
  },
  grapefruit: {
    segments: 12,
    peel: gloss([0.76, 0.37, 0.09], 0.28),
    pith: PITH,
    flesh: thin([0.46, 0.08, 0.045], [0.5, 0.085, 0.04]),
    membrane: thin([0.66, 0.42, 0.3], [0.26, 0.13, 0.08]),
  },
};

export const OLIVE = gloss([0.2, 0.22, 0.05], 0.16);
export const PIMENTO = gloss([0.5, 0.035, 0.015], 0.2);
export const MINT_LEAF = thin([0.05, 0.14, 0.025], [0.06, 0.19, 0.02]);
export const MINT_STEM = gloss([0.2, 0.27, 0.09], 0.4);
export const STEEL: Finish = { type: 'metal', reflectanceRgb: [0.62, 0.6, 0.57], roughness: 0.08 };
export const WOOD: Finish = { type: 'matte', reflectanceRgb: [0.58, 0.42, 0.25] };
export const BAMBOO = gloss([0.52, 0.38, 0.17], 0.4);
export const PAPER: Rgb = [0.82, 0.82, 0.8];
export const CLEAR: Finish = { type: 'clear', roughness: 0 };

export const BLUEBERRY = gloss([0.035, 0.045, 0.12], 0.55);
export const BLUEBERRY_CROWN = gloss([0.02, 0.02, 0.045], 0.5);
export const RASPBERRY = gloss([0.42, 0.018, 0.05], 0.2, 1.38);
export const CHERRY = gloss([0.3, 0.006, 0.016], 0.05);
export const CRANBERRY = gloss([0.38, 0.012, 0.02], 0.1);
export const CHERRY_STEM = gloss([0.12, 0.14, 0.03], 0.4);

/** A thin bed of grains lets a good part of the light through: a crust glows when it is lit from behind. */
export const SALT_BED = thin([0.56, 0.56, 0.56], [0.38, 0.38, 0.38]);
export const SUGAR_BED = thin([0.52, 0.5, 0.45], [0.4, 0.385, 0.34]);
/** Crystals: white grains with clear faces. */
export const SALT = gloss([0.82, 0.82, 0.82], 0.06, 1.54);
export const SUGAR = gloss([0.78, 0.75, 0.68], 0.06, 1.54);
