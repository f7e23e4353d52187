/**
 * Measured refractive indices, wavelength in micrometres. Coefficients as transcribed in the refractiveindex.info
 * database (public domain); the publication is named at each entry. Optical glasses go by their six-digit code: n_d - 1 and V_d.
 */

/** Fraunhofer lines, micrometres. */
export const LINE_F_UM = 0.48613;
export const LINE_D_HELIUM_UM = 0.58756;
export const LINE_D_SODIUM_UM = 0.5893;
export const LINE_C_UM = 0.65627;

/** How an index depends on wavelength. */
export type Dispersion =
  /** n^2 = 1 + sum B l^2 / (l^2 - C), terms as [B, C]. */
  | { readonly form: 'sellmeier'; readonly terms: readonly (readonly [number, number])[] }
  /** n = sum c l^e, terms as [c, e]. */
  | { readonly form: 'powers'; readonly terms: readonly (readonly [number, number])[] }
  /** n^2 = sum c l^e. */
  | { readonly form: 'squarePowers'; readonly terms: readonly (readonly [number, number])[] }
  /** Straight lines between [l, n]; the ends hold beyond the table. */
  | { readonly form: 'table'; readonly points: readonly (readonly [number, number])[] };

export interface IndexData {
  readonly name: string;
  readonly dispersion: Dispersion;
  readonly source: string;
}

const CATALOGUE = 'glass-maker catalogue of 2017';

export const INDEX_DATA = {
  crown: {
    name: 'borosilicate crown glass 517642, 20 C',
    dispersion: {
      form: 'sellmeier',
      terms: [
        [1.03961212, 0.00600069867],
        [0.231792344, 0.0200179144],
        [1.01046945, 103.560653],
      ],
    },
    source: CATALOGUE,
  },
  leadCrown: {
    name: 'crown glass 501564 (contains lead)',
    dispersion: {
      form: 'sellmeier',
      terms: [
        [1.15687082, 0.00809424251],
        [0.0642625444, 0.0386051284],
        [0.872376139, 104.74773],
      ],
    },
    source: CATALOGUE,
  },
  lightFlint: {
    name: 'light flint glass 581409 (lead)',
    dispersion: {
      form: 'sellmeier',
      terms: [
        [1.28035628, 0.00929854416],
        [0.163505973, 0.0449135769],
        [0.893930112, 110.493685],
      ],
    },
    source: CATALOGUE,
  },
  flint: {
    name: 'flint glass 620364 (lead)',
    dispersion: {
      form: 'sellmeier',
      terms: [
        [1.34533359, 0.00997743871],
        [0.209073176, 0.0470450767],
        [0.937357162, 111.886764],
      ],
    },
    source: CATALOGUE,
  },
  water: {
    name: 'water, 20 C',
    dispersion: {
      form: 'sellmeier',
      terms: [
        [0.5684027565, 0.005101829712],
        [0.1726177391, 0.01821153936],
        [0.02086189578, 0.02620722293],
        [0.1130748688, 10.69792721],
      ],
    },
    source: 'Daimon and Masumura, Applied Optics 46, 3811 (2007)',
  },
  acrylic: {
    name: 'acrylic (PMMA), 20 C',
    dispersion: { form: 'sellmeier', terms: [[1.1819, 0.011313]] },
    source: 'Sultanova et al., Acta Physica Polonica A 116, 585 (2009)',
  },
  acrylicBroad: {
    name: 'acrylic (PMMA), 20.1 C, second sample',
    dispersion: {
      form: 'squarePowers',
      terms: [
        [2.1778, 0],
        [0.0061209, 2],
        [-0.0015004, 4],
        [0.023678, -2],
        [-0.0042137, -4],
        [7.3417e-4, -6],
        [-4.5042e-5, -8],
      ],
    },
    source: 'Beadie et al., Applied Optics 54, F139 (2015); good to 2e-4',
  },
  polycarbonate: {
    name: 'polycarbonate, 20 C',
    dispersion: { form: 'sellmeier', terms: [[1.4182, 0.021304]] },
    source: 'Sultanova et al., Acta Physica Polonica A 116, 585 (2009)',
  },
  sodaLime: {
    name: 'soda-lime glass, clear window',
    dispersion: {
      form: 'powers',
      terms: [
        [1.513, 0],
        [-0.003169, 2],
        [0.003962, -2],
      ],
    },
    source: 'Rubin, Solar Energy Materials 12, 275 (1985); 1.517 to 1.524 by composition',
  },
  ethanol: {
    name: 'ethanol, 20 C',
    dispersion: {
      form: 'powers',
      terms: [
        [1.35265, 0],
        [0.00306, -2],
        [0.00002, -4],
      ],
    },
    source: 'Rheims et al., Measurement Science and Technology 8, 601 (1997)',
  },
  glycerol: {
    name: 'glycerol, 25 C',
    dispersion: {
      form: 'powers',
      terms: [
        [1.45797, 0],
        [0.00598, -2],
        [-0.00036, -4],
      ],
    },
    source: 'Rheims et al. (1997); fitted from 0.589 um up, below that extrapolated',
  },
  ice: {
    name: 'ice, -7 C',
    dispersion: {
      form: 'table',
      points: [
        [0.48, 1.314],
        [0.49, 1.3135],
        [0.58, 1.31],
        [0.59, 1.3097],
        [0.65, 1.308],
        [0.66, 1.3078],
      ],
    },
    source: 'Warren and Brandt, Journal of Geophysical Research 113, D14220 (2008); four digits',
  },
} as const satisfies Readonly<Record<string, IndexData>>;

export type IndexMaterial = keyof typeof INDEX_DATA;

/** Index of a material at a wavelength, the sodium D line when left out. */
export function refractiveIndex(material: IndexMaterial, wavelengthUm = LINE_D_SODIUM_UM): number {
  return indexFromDispersion(INDEX_DATA[material].dispersion, wavelengthUm);
}

export function indexFromDispersion(dispersion: Dispersion, wavelengthUm: number): number {
  switch (dispersion.form) {
    case 'sellmeier': {
      const l2 = wavelengthUm * wavelengthUm;
      return Math.sqrt(dispersion.terms.reduce((sum, [b, c]) => sum + (b * l2) / (l2 - c), 1));
    }
    case 'powers':
      return sumOfPowers(dispersion.terms, wavelengthUm);
    case 'squarePowers':
      return Math.sqrt(sumOfPowers(dispersion.terms, wavelengthUm));
    case 'table':
      return interpolate(dispersion.points, wavelengthUm);
  }
}

/** Abbe number V_d = (n_d - 1) / (n_F - n_C): how little a glass spreads colours. */
export const abbeNumber = (material: IndexMaterial): number =>
  (refractiveIndex(material, LINE_D_HELIUM_UM) - 1) /
  (refractiveIndex(material, LINE_F_UM) - refractiveIndex(material, LINE_C_UM));

const sumOfPowers = (terms: readonly (readonly [number, number])[], l: number): number =>
  terms.reduce((sum, [c, e]) => sum + c * l ** e, 0);

/** Straight lines between points sorted by x; the ends hold beyond them. */
export function interpolate(points: readonly (readonly [number, number])[], x: number): number {
  let before = points[0];
  if (x <= before[0]) return before[1];
  for (const after of points) {
    if (x <= after[0]) {
      const t = after[0] > before[0] ? (x - before[0]) / (after[0] - before[0]) : 1;
      return before[1] + t * (after[1] - before[1]);
    }
    before = after;
  }
  return before[1];
}
