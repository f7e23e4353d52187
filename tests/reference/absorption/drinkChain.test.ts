import { describe, expect, it } from 'vitest';
import { absorptionPerMFromTransmittanceRgb, transmittanceRgb } from '../../../src/materials/absorption.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import {
  defaultGlassProfile,
  drinkOfLibrary,
  LIBRARY_DRINK_IDS,
  mediumOfLibrary,
} from '../../../src/scene/pieceDefaults.ts';
import { drinkSchema } from '../../../src/scene/records.ts';
import { glassOf, sceneOf } from '../../scene/sceneTools.ts';

/** The medium that the tracer is given for a drink of the library poured into a highball. */
function mediumInGlass(id: string) {
  const drink = drinkOfLibrary(id);
  if (!drink) throw new Error(`no drink ${id}`);
  const set = buildSet(sceneOf([glassOf(defaultGlassProfile('highball'), { drink: drinkSchema.parse(drink) })]));
  const volume = set.volumes.find((v) => v.id === 'glass:drink');
  if (!volume) throw new Error('filled');
  return volume.medium;
}

/**
 * Transmittances by absorption alone, from the sigma_a of Narasimhan et al., "Acquiring Scattering Properties of
 * Participating Media by Dilution", SIGGRAPH 2006, as transcribed in the pbrt renderer; exp(-sigma_a d) computed apart.
 */
const TABLE = [
  ['red-wine', 0, 0.31248, 0.00953],
  ['red-wine', 1, 0.08053, 4e-5],
  ['apple-juice', 0, 0.87847, 0.59554],
  ['apple-juice', 1, 0.78867, 0.38688],
  ['apple-juice', 2, 0.59343, 0.12401],
  ['lager', 0, 0.89144, 0.63149],
  ['lager', 1, 0.77949, 0.36919],
  ['lager', 2, 0.5611, 0.09912],
  ['cola', 0, 0.36736, 0.01821],
  ['white-wine', 0, 0.89779, 0.64968],
  ['white-wine', 2, 0.78665, 0.38294],
] as const;

describe('a drink from its record to the volume that is traced', () => {
  it.each(TABLE)('%s, channel %i: lets %f through 10 mm and %f through 40 mm', (id, channel, at10Mm, at40Mm) => {
    const { absorptionPerM } = mediumInGlass(id);
    expect(transmittanceRgb(absorptionPerM, 0.01)[channel]).toBeCloseTo(at10Mm, 4);
    expect(transmittanceRgb(absorptionPerM, 0.04)[channel]).toBeCloseTo(at40Mm, 4);
    // Four times the path is the fourth power.
    expect(transmittanceRgb(absorptionPerM, 0.04)[channel]).toBeCloseTo(at10Mm ** 4, 3);
  });

  it('keeps the scattering of a cloudy drink: whole milk 2550, 3210 and 3770 per metre, even all round', () => {
    const { scatteringPerM, anisotropy } = mediumInGlass('whole-milk');
    expect(scatteringPerM).toEqual([2550, 3210, 3770]);
    expect(anisotropy ?? 0).toBe(0);
    expect(mediumInGlass('tonic').scatteringPerM).toBeUndefined();
  });

  it('takes scattering and mean cosine of the record as they are', () => {
    const drink = drinkSchema.parse({
      ...drinkOfLibrary('lager'),
      scatteringPerM: [40, 41, 42],
      anisotropy: 0.9,
    });
    const set = buildSet(sceneOf([glassOf(defaultGlassProfile('highball'), { drink })]));
    const medium = set.volumes.find((v) => v.id === 'glass:drink')?.medium;
    expect(medium?.scatteringPerM).toEqual([40, 41, 42]);
    expect(medium?.anisotropy).toBe(0.9);
  });

  it('gives each layer its own: tonic over apple juice', () => {
    const layer = mediumOfLibrary('tonic');
    if (!layer) throw new Error('in the library');
    const drink = drinkSchema.parse({ ...drinkOfLibrary('apple-juice'), layers: [{ ...layer, share: 0.4 }] });
    const set = buildSet(sceneOf([glassOf(defaultGlassProfile('highball'), { drink })]));
    const [low, high] = ['glass:drink', 'glass:drink-2'].map((id) => set.volumes.find((v) => v.id === id)?.medium);
    expect(low?.absorptionPerM).toEqual(mediumInGlass('apple-juice').absorptionPerM);
    expect(high?.absorptionPerM).toEqual(absorptionPerMFromTransmittanceRgb([0.97, 0.975, 0.965], 0.05));
  });

  it.each(LIBRARY_DRINK_IDS)('%s is a valid record as it comes from the library', (id) => {
    expect(drinkSchema.safeParse(drinkOfLibrary(id)).success).toBe(true);
  });
});
