import { describe, expect, it } from 'vitest';
import {
  abbeNumber,
  type IndexMaterial,
  LINE_C_UM,
  LINE_D_HELIUM_UM,
  LINE_D_SODIUM_UM,
  LINE_F_UM,
  refractiveIndex,
} from '../../../src/materials/indexTables.ts';
import {
  ethanolMassFraction,
  gladstoneDaleIndex,
  lorentzLorenzIndex,
  spiritIndexD,
  sucroseDensityKgPerM3,
  sucroseIndexD,
} from '../../../src/materials/solutions.ts';

// Coefficients: refractiveindex.info database (CC0), publications named in the table itself. Values computed
// independently from those coefficients; n_d and V_d of the first row are those that the catalogue states.
const rows: readonly (readonly [IndexMaterial, number, number, number, number, number, number, number])[] = [
  // material, n_F, n_d, n_D, n_C, V_d, tolerance of n, tolerance of V_d
  ['crown', 1.522376, 1.5168, 1.516728, 1.514322, 64.167, 2e-6, 0.01],
  ['leadCrown', 1.50756, 1.501371, 1.501292, 1.498672, 56.409, 2e-6, 0.01],
  ['lightFlint', 1.591462, 1.58144, 1.581315, 1.577229, 40.851, 2e-6, 0.01],
  ['flint', 1.632081, 1.62004, 1.619891, 1.615032, 36.366, 2e-6, 0.01],
  ['water', 1.337492, 1.333403, 1.333349, 1.331513, 55.76, 2e-6, 0.01],
  ['acrylic', 1.497105, 1.490618, 1.490537, 1.487878, 53.18, 2e-6, 0.02],
  ['acrylicBroad', 1.498363, 1.492527, 1.492455, 1.490067, 59.37, 2e-6, 0.02],
  ['polycarbonate', 1.599598, 1.584763, 1.584579, 1.578607, 27.86, 2e-6, 0.02],
  ['sodaLime', 1.529016, 1.523382, 1.523309, 1.520834, 63.97, 2e-6, 0.02],
  ['ethanol', 1.365956, 1.361681, 1.361628, 1.359863, 59.35, 2e-6, 0.02],
  // The fit of glycerol holds from 0.589 um up; its F value is extrapolated and printed to four digits.
  ['glycerol', 1.4768, 1.47227, 1.472205, 1.469914, 68, 5e-5, 1],
  // Ice: a table of four digits.
  ['ice', 1.31369, 1.30977, 1.30972, 1.30787, 53, 1e-5, 6],
];

describe('refractive index', () => {
  it.each(rows)('%s: n_F %f, n_d %f, n_D %f, n_C %f, V_d %f', (material, nF, nd, nD, nC, vd, tolN, tolV) => {
    expect(Math.abs(refractiveIndex(material, LINE_F_UM) - nF)).toBeLessThan(tolN);
    expect(Math.abs(refractiveIndex(material, LINE_D_HELIUM_UM) - nd)).toBeLessThan(tolN);
    expect(Math.abs(refractiveIndex(material, LINE_D_SODIUM_UM) - nD)).toBeLessThan(tolN);
    expect(Math.abs(refractiveIndex(material, LINE_C_UM) - nC)).toBeLessThan(tolN);
    expect(Math.abs(abbeNumber(material) - vd)).toBeLessThan(tolV);
  });

  it('uses the sodium line when no wavelength is given', () => {
    expect(refractiveIndex('water')).toBe(refractiveIndex('water', 0.5893));
  });
});

describe('drinks as solutions', () => {
  // CRC Handbook, concentrative properties of aqueous solutions; 1e-4. The five-digit column is ICUMSA 1974, from memory.
  it.each([
    [0, 1.333, 1.33299, 998.2],
    [10, 1.3478, 1.34782, 1038.1],
    [20, 1.3639, 1.36384, 1081],
    [30, 1.3812, 1.38115, 1127],
    [40, 1.3999, 1.39986, 1176.5],
    [50, 1.4201, 1.42009, 1229.5],
    [60, 1.4419, 1.44193, 1286.4],
    [70, 1.4654, 1.46546, 1347.2],
    [80, 1.4906, 1.49071, 1411.7],
  ])('sugar syrup of %i Brix has index %f (%f) and %f kg/m3', (brix, crc, icumsa, density) => {
    expect(sucroseIndexD(brix)).toBeCloseTo(crc, 10);
    expect(Math.abs(sucroseIndexD(brix) - icumsa)).toBeLessThan(1.2e-4);
    expect(sucroseDensityKgPerM3(brix)).toBeCloseTo(density, 9);
  });

  it('holds 33.3 mass % of ethanol at 40 % by volume', () => {
    expect(ethanolMassFraction(40)).toBeCloseTo(0.333, 4);
  });

  it('gives a 40 % spirit index 1.3555 +- 0.0015 by table and by both mixing rules', () => {
    const parts = [
      { massFraction: 0.333, index: 1.3614, densityKgPerM3: 789.24 },
      { massFraction: 0.667, index: 1.333, densityKgPerM3: 998.2 },
    ];
    expect(Math.abs(spiritIndexD(40) - 1.3555)).toBeLessThan(0.0015);
    expect(gladstoneDaleIndex(parts, 948.05)).toBeCloseTo(1.35552, 4);
    expect(lorentzLorenzIndex(parts, 948.05)).toBeCloseTo(1.35673, 4);
  });

  it('has its highest index near 78 mass %, not at pure ethanol', () => {
    // Jimenez Rioboo et al., European Physical Journal E 30, 19 (2009): extremum near 78 mass %.
    expect(spiritIndexD(85)).toBeGreaterThan(spiritIndexD(40));
    expect(spiritIndexD(85)).toBeGreaterThan(spiritIndexD(100));
    expect(100 * ethanolMassFraction(85)).toBeGreaterThan(74);
    expect(100 * ethanolMassFraction(85)).toBeLessThan(82);
  });
});
