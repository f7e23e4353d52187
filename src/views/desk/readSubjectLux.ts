/**
 * Incident light at the meter point per fixture, lux, as the fixtures are set, from the figures of the exposure check.
 * Figures are open data, so anything that is not of the expected shape is passed over.
 */
export function readSubjectLux(figures: Readonly<Record<string, unknown>>): ReadonlyMap<string, number> {
  const byFixture = new Map<string, number>();
  const { exposure } = figures;
  if (!isObject(exposure) || !Array.isArray(exposure.fixtureShares)) return byFixture;
  for (const share of exposure.fixtureShares) {
    if (isObject(share) && typeof share.fixtureId === 'string' && typeof share.lux === 'number') {
      byFixture.set(share.fixtureId, share.lux);
    }
  }
  return byFixture;
}

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;
