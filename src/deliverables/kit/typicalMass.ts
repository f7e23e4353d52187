import type { Fixture, GripItem } from '../../fixtures/records.ts';

/** Said of every mass on the lists. */
export const TYPICAL_MASS_NOTE = 'Masses are typical of the class, not of any product: weigh what you hire.';

/** What a light with its yoke and modifier weighs, kg. Typical class figures, no source. */
export function typicalFixtureKg(fixture: Fixture): number {
  switch (fixture.kind) {
    case 'panel':
      return 1 + 14 * fixture.widthM * fixture.heightM;
    case 'spot':
      return 1 + (fixture.powerW ?? 150) / 60;
    case 'softbox':
      return 2.5 + (fixture.powerW ?? 150) / 150 + 1.5 * fixture.widthM * fixture.heightM;
    case 'tube':
      return 0.3 + 0.9 * fixture.lengthM;
    case 'bulb':
      return 0.5;
    case 'lantern':
      return 0.7;
    case 'measured':
      return 1 + (fixture.powerW ?? 150) / 60;
  }
}

/** What a sheet of grip weighs, kg. Typical class figures, no source. */
export function typicalGripKg(item: GripItem): number {
  const areaM2 = item.widthM * item.heightM;
  switch (item.kind) {
    case 'flag':
      return 0.4 + 2 * areaM2;
    case 'bounceCard':
      return 0.1 + areaM2;
    case 'diffusionFrame':
      return 1 + 1.5 * areaM2;
  }
}

/** Loads that stands are hired by, kg. */
export const LOAD_CLASSES_KG = [2, 5, 10, 20, 40] as const;

/** The least class that carries a load; the largest one when none does. */
export const loadClassKg = (loadKg: number): number =>
  LOAD_CLASSES_KG.find((classKg) => loadKg <= classKg) ?? LOAD_CLASSES_KG[LOAD_CLASSES_KG.length - 1];

/** What a stand of a class weighs itself, kg. Typical class figures, no source. */
export const typicalStandKg = (classKg: number): number => (classKg <= 5 ? 3 : classKg <= 10 ? 5 : 9);
