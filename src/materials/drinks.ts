import type { Vec3 } from '../core/vec3.ts';
import { absorptionPerMFromTransmittanceRgb } from './absorption.ts';
import { spiritIndexD, sucroseIndexD } from './solutions.ts';

/**
 * Optical properties of a drink. Absorption and reduced scattering, sigma_s (1 - g), are per metre for red, green and
 * blue. The measurements were made through camera filters; here they stand for the R, G, B working channels as they
 * are, which is right to the eye but no spectrophotometry.
 */
export interface DrinkOptics {
  readonly id: string;
  readonly name: string;
  /** Sodium D line; from typical sugar or alcohol content unless the source says more. */
  readonly index: number;
  readonly absorptionPerM: Vec3;
  readonly reducedScatteringPerM: Vec3;
  /** 'measured' figures are published; 'invented' ones are plausible and were chosen by eye. */
  readonly origin: 'measured' | 'invented';
  readonly source: string;
}

const DIFFUSION_2001 = 'Jensen et al., A Practical Model for Subsurface Light Transport, SIGGRAPH 2001';
const DILUTION_2006 =
  'Narasimhan et al., Acquiring Scattering Properties of Participating Media by Dilution, SIGGRAPH 2006';

const perM = (perMm: Vec3): Vec3 => [perMm[0] * 1000, perMm[1] * 1000, perMm[2] * 1000];

const measured =
  (source: string) =>
  (id: string, name: string, index: number, absorptionPerMm: Vec3, reducedScatteringPerMm: Vec3): DrinkOptics => ({
    id,
    name,
    index,
    absorptionPerM: perM(absorptionPerMm),
    reducedScatteringPerM: perM(reducedScatteringPerMm),
    origin: 'measured',
    source,
  });
const byDiffusion = measured(DIFFUSION_2001);
const byDilution = measured(DILUTION_2006);

/** Clear drink chosen by eye: what is left of white light after 50 mm. */
const invented = (id: string, name: string, index: number, transmittance50Mm: Vec3): DrinkOptics => ({
  id,
  name,
  index,
  absorptionPerM: absorptionPerMFromTransmittanceRgb(transmittance50Mm, 0.05),
  reducedScatteringPerM: [0, 0, 0],
  origin: 'invented',
  source: 'invented for previews',
});

/** Cloudy drink chosen by eye: absorption as for a clear one, and reduced scattering per metre. */
const inventedCloudy = (
  id: string,
  name: string,
  index: number,
  transmittance50Mm: Vec3,
  reducedScatteringPerM: Vec3,
): DrinkOptics => ({ ...invented(id, name, index, transmittance50Mm), reducedScatteringPerM });

const MILK_INDEX = 1.35;
const WINE_INDEX = 1.344;

export const DRINKS: readonly DrinkOptics[] = [
  {
    id: 'water',
    name: 'Still water',
    index: 1.333,
    absorptionPerM: [0.3, 0.06, 0.01],
    reducedScatteringPerM: [0, 0, 0],
    origin: 'measured',
    source: 'Pope and Fry, Applied Optics 36, 8710 (1997), about 630, 550 and 450 nm (from memory)',
  },
  byDiffusion('skim-milk', 'Skim milk', MILK_INDEX, [0.0014, 0.0025, 0.0142], [0.7, 1.22, 1.9]),
  byDiffusion('whole-milk', 'Whole milk', MILK_INDEX, [0.0011, 0.0024, 0.014], [2.55, 3.21, 3.77]),
  byDiffusion('cream', 'Cream', 1.36, [0.0002, 0.0028, 0.0163], [7.38, 5.47, 3.15]),
  byDilution('low-fat-milk', 'Low-fat milk', MILK_INDEX, [0.002875, 0.00575, 0.0115], [0.89187, 1.5136, 2.532]),
  byDilution('regular-milk', 'Regular milk', MILK_INDEX, [0.0015333, 0.0046, 0.019933], [4.5513, 5.8294, 7.136]),
  byDilution('espresso', 'Espresso', 1.336, [4.7984, 6.5751, 8.8493], [0.72378, 0.84557, 1.0247]),
  byDilution('cola', 'Cola', sucroseIndexD(10.6), [0.10014, 0.16503, 0.2468], [8.9e-5, 8.4e-5, 0]),
  byDilution('lemon-soda', 'Lemon soda', sucroseIndexD(10), [0.001886, 0.0018308, 0.0020025], [6e-6, 6.4e-6, 6.6e-6]),
  byDilution('white-wine', 'White wine', WINE_INDEX, [0.010782, 0.011855, 0.023997], [1.8e-5, 1.4e-5, 1.2e-5]),
  byDilution('rose-wine', 'Rosé wine', WINE_INDEX, [0.012072, 0.016184, 0.019843], [1.8e-5, 1.9e-5, 1.3e-5]),
  byDilution('red-wine', 'Red wine', WINE_INDEX, [0.11632, 0.25191, 0.29434], [2.1e-5, 0, 0]),
  byDilution('lager', 'Lager', 1.341, [0.011492, 0.024911, 0.057786], [2.4e-5, 2.4e-5, 1.1e-5]),
  byDilution(
    'apple-juice',
    'Apple juice',
    sucroseIndexD(11.5),
    [0.012957, 0.023741, 0.052184],
    [1.36e-4, 1.58e-4, 2.27e-4],
  ),
  byDilution(
    'cranberry-juice',
    'Cranberry juice',
    sucroseIndexD(13),
    [0.039437, 0.094223, 0.12426],
    [1.04e-4, 1.16e-4, 7.8e-5],
  ),
  byDilution('grape-juice', 'Grape juice', sucroseIndexD(16), [0.10404, 0.23958, 0.29325], [5.4e-5, 0, 0]),
  byDilution(
    'pink-grapefruit-juice',
    'Pink grapefruit juice',
    sucroseIndexD(10),
    [0.085867, 0.18314, 0.25262],
    [0.011002, 0.010927, 0.011036],
  ),
  byDilution(
    'white-grapefruit-juice',
    'White grapefruit juice, cloudy',
    sucroseIndexD(10),
    [0.0138, 0.018831, 0.056781],
    [0.22826, 0.23998, 0.32748],
  ),
  inventedCloudy('cloudy-lemonade', 'Cloudy lemonade', sucroseIndexD(9), [0.95, 0.92, 0.66], [42, 42, 44]),
  inventedCloudy('orange-juice', 'Orange juice', sucroseIndexD(11), [0.84, 0.5, 0.05], [230, 210, 190]),
  inventedCloudy('milk-punch', 'Milk punch', 1.352, [0.9, 0.76, 0.5], [620, 680, 760]),
  invented('tonic', 'Tonic, clear', sucroseIndexD(8.5), [0.97, 0.975, 0.965]),
  invented('iced-tea', 'Iced black tea, unsweetened', 1.3335, [0.55, 0.24, 0.05]),
  invented('hibiscus', 'Hibiscus cooler', sucroseIndexD(7), [0.42, 0.09, 0.07]),
  invented('herb-cordial', 'Green herb cordial', sucroseIndexD(12), [0.12, 0.62, 0.1]),
  invented('clear-spirit', 'Clear spirit, 40 % by volume', spiritIndexD(40), [0.985, 0.99, 0.99]),
];

/** The drink of an id; undefined for an unknown one. */
export const findDrink = (id: string): DrinkOptics | undefined => DRINKS.find((drink) => drink.id === id);

/**
 * Share of light scattered out of its way over `pathM` in the strongest channel, by reduced scattering. Above a few
 * per cent a clear medium is a poor stand-in for the drink.
 */
export const cloudiness = (drink: DrinkOptics, pathM: number): number =>
  1 - Math.exp(-Math.max(...drink.reducedScatteringPerM) * pathM);
